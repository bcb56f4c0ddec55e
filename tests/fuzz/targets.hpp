// Targets: what is given bytes of anybody's, and has to refuse them in one clear line or take them for what they say.
#pragma once

#include <stdexcept>
#include <string_view>
#include <vector>

namespace fuzz {

/// Thrown where an input is taken or refused in a way that must not be.
struct Find : std::logic_error {
    using std::logic_error::logic_error;
};

/// What the target is given, for what is held of a message: it may say again what stood there.
inline std::string_view given;

void block(std::string_view bytes);
void draft(std::string_view bytes);
void entries_posted(std::string_view bytes);
void entries_stored(std::string_view bytes);
void fhir(std::string_view bytes);
void gs1(std::string_view bytes);
void ledger(std::string_view bytes);
void logger_guess(std::string_view bytes);
void logger_layout(std::string_view bytes);
void quantities(std::string_view bytes);
void start(std::string_view bytes);

struct Target {
    const char* name;
    void (*run)(std::string_view bytes);
};
inline constexpr Target targets[] = {
    {"block", block},
    {"draft", draft},
    {"entries_posted", entries_posted},
    {"entries_stored", entries_stored},
    {"fhir", fhir},
    {"gs1", gs1},
    {"ledger", ledger},
    {"logger_guess", logger_guess},
    {"logger_layout", logger_layout},
    {"quantities", quantities},
    {"start", start},
};

}  // namespace fuzz
