// The command line by a phrasebook whose every letter is another: what it prints with a Latin letter in it did not come
// out of the phrasebook.
#include <string>

#include "../../cli/program.hpp"

namespace {

/// Latin letters of the phrase become Cyrillic ones, each its own; the names of its fields stay.
std::string marked(std::string_view text) {
    std::string out;
    bool field = false;
    for (const char c : text) {
        field = c == '{' || (field && c != '}');
        const bool small = c >= 'a' && c <= 'z', large = c >= 'A' && c <= 'Z';
        if (field || (!small && !large)) {
            out += c;
            continue;
        }
        const unsigned code = small ? 0x430U + static_cast<unsigned>(c - 'a') : 0x410U + static_cast<unsigned>(c - 'A');
        out += static_cast<char>(0xC0U | code >> 6U);
        out += static_cast<char>(0x80U | (code & 0x3FU));
    }
    return out;
}

class Marked final : public coldtally::Phrasebook {
public:
    std::string text(const coldtally::Phrase& phrase) const override { return marked(phrase.english); }
    std::string suggestion(const coldtally::Suggestion& of) const override {
        return coldtally::english().suggestion(of);
    }
};

}  // namespace

int main(int count, char** given) { return coldtally::cli::run_program(count, given, Marked()); }
