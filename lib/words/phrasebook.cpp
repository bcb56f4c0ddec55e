#include <algorithm>
#include <charconv>

#include "coldtally/words.hpp"
#include "words/lists.hpp"
#include "words/python_call.hpp"
#include "words/shell.hpp"

namespace coldtally {

Field::Field(Remark said) { remark.push_back(std::move(said)); }
Field::Field(Suggestion said) { suggestion.push_back(std::move(said)); }

// written out: clang 14 does not survive a default of the two, which hold one another
bool Field::operator==(const Field& other) const {
    return text == other.text && remark == other.remark && suggestion == other.suggestion;
}
bool Remark::operator==(const Remark& other) const { return phrase == other.phrase && fields == other.fields; }

std::vector<std::string> field_names(const Phrase& phrase) {
    std::vector<std::string> out;
    const std::string_view text = phrase.english;
    for (auto open = text.find('{'); open != text.npos; open = text.find('{', open + 1)) {
        std::string name(text.substr(open + 1, text.find('}', open) - open - 1));
        if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(std::move(name));
    }
    return out;
}

namespace {

/// Of a text with forms by number, the one that goes with the first field.
std::string_view form_of(const Phrasebook& book, std::string_view text, const Remark& remark) {
    if (text.find('|') == text.npos) return text;
    std::int64_t number = 0;
    if (!remark.fields.empty()) {
        const std::string& first = remark.fields.front().text;
        std::from_chars(first.data(), first.data() + first.size(), number);
    }
    for (std::size_t skip = book.form(number); skip > 0 && text.find('|') != text.npos; --skip)
        text.remove_prefix(text.find('|') + 1);
    return text.substr(0, text.find('|'));
}

class English final : public Phrasebook {
public:
    explicit English(std::string (*say_task)(const Suggestion&)) : suggestion_(say_task) {}
    std::string suggestion(const Suggestion& of) const override { return suggestion_(of); }

private:
    std::string (*suggestion_)(const Suggestion&);
};

}  // namespace

std::string Phrasebook::say(const Field& field) const {
    if (!field.remark.empty()) return say(field.remark.front());
    if (!field.suggestion.empty()) return suggestion(field.suggestion.front());
    return field.text;
}

std::string Phrasebook::say(const Remark& remark) const {
    const std::vector<std::string> names = field_names(*remark.phrase);
    const std::string whole = text(*remark.phrase);
    std::string_view rest = form_of(*this, whole, remark);
    std::string out;
    for (auto open = rest.find('{'); open != rest.npos; open = rest.find('{')) {
        const auto close = rest.find('}', open);
        if (close == rest.npos) break;
        out += rest.substr(0, open);
        const auto at = std::find(names.begin(), names.end(), rest.substr(open + 1, close - open - 1)) - names.begin();
        if (static_cast<std::size_t>(at) < remark.fields.size())
            out += say(remark.fields[static_cast<std::size_t>(at)]);
        else
            out += rest.substr(open, close - open + 1);
        rest.remove_prefix(close + 1);
    }
    return out += rest;
}

std::vector<std::string> Phrasebook::say(const std::vector<Remark>& remarks) const {
    std::vector<std::string> out;
    for (const Remark& remark : remarks) out.push_back(say(remark));
    return out;
}

Refusal::Refusal(Code code, Remark said) : Error(code, english().say(said)), said_(std::move(said)) {}

WhichOne::WhichOne(Remark asked, std::vector<Remark> choices)
    : WhichOne(Code::ambiguous, std::move(asked), std::move(choices)) {}
WhichOne::WhichOne(Code code, Remark asked, std::vector<Remark> choices)
    : Refusal(code, words::colon(asked, *words::semicolons(choices))),
      asked_(std::move(asked)),
      choices_(std::move(choices)) {}

const Phrasebook& english() {
    static const English book(words::shell_line);
    return book;
}

const Phrasebook& english_for_python() {
    static const English book(words::python_call);
    return book;
}

}  // namespace coldtally
