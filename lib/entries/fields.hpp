// Fields: reads the fields of one JSON object, each with its form, and refuses those that nobody asked for.
#pragma once

#include <initializer_list>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally::entries {

using text::Json;

class Fields {
public:
    /// `where` ("line 3: handover") begins every message. Code::bad_value where `object` is no object. Borrows
    /// `object`. `kept`: what a ledger has kept, by the rules of its time. What stands in a field `patient` is in no
    /// message.
    Fields(const Json& object, std::string where, bool kept = false);

    bool has(const char* field);
    const Json& value(const char* field);  ///< Code::missing_field
    Fields object(const char* field) { return within(value(field), name_of(field)); }
    /// Of an object inside this one.
    Fields within(const Json& object, std::string where) const { return Fields(object, std::move(where), kept_); }
    const Json& array(const char* field);

    std::string free_text(const char* field);   ///< at most 4,000 characters
    std::string id(const char* field);          ///< 1 to 64 printable characters without outer blanks
    std::string label(const char* field);       ///< as id, or empty
    std::string place_id(const char* field);    ///< as id, without '/'
    std::string optional_label(const char* field) { return has(field) ? label(field) : std::string(); }
    std::int64_t whole(const char* field, std::int64_t least, std::int64_t most);
    bool truth(const char* field);
    Duration seconds(const char* field, std::int64_t least = 0) {
        return Duration(whole(field, least, limits::seconds));
    }
    Doses doses(const char* field, std::int64_t least = 1) { return Doses(whole(field, least, limits::doses)); }
    Instant instant(const char* field, const Zone& zone);
    Date date(const char* field);
    Scale scale(const char* field);
    Temperature temperature(const char* field, Scale scale);
    TemperatureDifference difference(const char* field);
    Limit limit(const char* field);
    Rational rational(const char* field);        ///< text "n" or "n/d"
    Rational not_negative(const char* field);
    std::size_t choice(const char* field, std::initializer_list<const char*> names) {
        return choice(field, std::span(names.begin(), names.size()));
    }
    std::size_t choice(const char* field, std::span<const char* const> names);

    /// Code::unknown_field for the first field that has not been asked for.
    void done() const;

    /// check_id of a value of this field.
    void check_id(const std::string& value, const char* field, bool may_be_empty, bool may_have_slash) const;

    std::string name_of(const std::string& field) const { return where_ + ": " + field; }
    [[noreturn]] void refuse(Code code, const std::string& field, const std::string& why) const;
    [[noreturn]] void refuse_value(const std::string& field, const Json& value, const std::string& why) const;

private:
    template <class F>
    auto parsed(const char* field, const char* form, F parse);

    const Json& object_;
    std::string where_;
    bool kept_;
    std::set<std::string> asked_;
};

/// The text of a temperature, correction or limit: a JSON text or whole number; empty where it is neither.
std::string number_text(const Json& value);
/// A value as it stands, shortened for a message.
std::string shown(const Json& value);
/// Refuses an id; `field` is its full name. `kept`: one that a ledger has kept already.
void check_id(const std::string& value, const std::string& field, bool may_be_empty, bool may_have_slash,
              bool kept = false);
/// Refuses what is not the hexadecimal SHA-256 of a file.
void check_sha256(const std::string& value, const std::string& field);
/// Refuses a batch of readings without rows, and one with more than an entry may have.
void check_row_count(std::size_t rows, const std::string& field);

}  // namespace coldtally::entries
