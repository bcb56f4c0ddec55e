// Words: what is said, as a code with fields; a phrasebook makes sentences of it.
#pragma once

#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "coldtally/error.hpp"

namespace coldtally {

/// One phrase of the phrasebook. It lives as long as the program; two are the same where their addresses are.
struct Phrase {
    const char* code;     ///< its stable name in JSON: "display-showed-more"
    /// With fields in braces: "{place} was {degrees}"; several forms by number: "{n} dose|{n} doses".
    const char* english;
};

/// A task that what is said points to: the name of the task, and what it is about. The command line says it as a
/// command, Python as a call.
struct Suggestion {
    struct Argument {
        /// Of the task's parameter, in lower case with underscores; empty: it goes by its place. "ledger" is the file
        /// asked, which the command line names and a call of Python has already.
        std::string name;
        std::string value;      ///< empty: the parameter is a switch
        bool is_empty = false;  ///< no switch, but a value that is the empty text

        bool operator==(const Argument&) const = default;
    };
    std::string task;  ///< "follow_up"
    std::vector<Argument> arguments;

    bool operator==(const Suggestion&) const = default;
};

struct Remark;

/// What stands in a phrase for a name in braces: a text that is no language's (a name, a number, an instant by the
/// site's clock), another remark, or a suggestion.
struct Field {
    std::string text;
    std::vector<Remark> remark;           ///< none or one
    std::vector<Suggestion> suggestion;  ///< none or one

    // each of them is a field where one is asked for
    Field();
    Field(std::string said);
    Field(std::string_view said);
    Field(const char* said);
    template <std::integral Number>
    Field(Number number);
    Field(Remark said);
    Field(Suggestion said);

    bool operator==(const Field&) const;
};

/// Something said: a phrase, and what it is about, in the order in which the English phrase names its fields first.
struct Remark {
    const Phrase* phrase;
    std::vector<Field> fields;

    bool is(const Phrase& of) const noexcept { return phrase == &of; }
    std::string_view code() const noexcept { return phrase->code; }
    bool operator==(const Remark&) const;
};

// after Remark, of which a field holds some
inline Field::Field() = default;
inline Field::Field(std::string said) : text(std::move(said)) {}
inline Field::Field(std::string_view said) : text(said) {}
inline Field::Field(const char* said) : text(said) {}
template <std::integral Number>
Field::Field(Number number) : text(std::to_string(number)) {}

/// The names of the fields of a phrase, in the order of Remark::fields.
std::vector<std::string> field_names(const Phrase& phrase);

/// Says remarks. A second language is a class of its own, which has a text for each phrase, with the same fields in any
/// order; a phrase that it lacks is said in English, never left out.
class Phrasebook {
public:
    virtual ~Phrasebook() = default;

    /// UTF-8. A field that the text names and the remark lacks is said as its name in braces.
    std::string say(const Remark& remark) const;
    std::string say(const Field& field) const;
    /// One each, in their order.
    std::vector<std::string> say(const std::vector<Remark>& remarks) const;

    /// The text of a phrase, with fields in braces, and forms by number apart by `|`.
    virtual std::string text(const Phrase& phrase) const { return phrase.english; }
    /// Which form goes with a number; of a phrase with forms it is that of the first field.
    virtual std::size_t form(std::int64_t number) const { return number == 1 ? 0 : 1; }
    /// A task as whoever reads it would type it.
    virtual std::string suggestion(const Suggestion& of) const = 0;
};

/// An error whose way out is a task. what() says it in English as the command line would; who calls in another way says
/// it by a phrasebook of their own.
class Refusal : public Error {
public:
    Refusal(Code code, Remark said);
    const Remark& said() const noexcept { return said_; }

private:
    Remark said_;
};

/// A Refusal where several match what is stated, or others may be meant. Each choice says what is to be stated for it,
/// as a suggestion, and what it is.
class WhichOne : public Refusal {
public:
    /// `asked`: what matches several, and what is to be stated. Code::ambiguous, if no other is given.
    WhichOne(Remark asked, std::vector<Remark> choices);
    WhichOne(Code code, Remark asked, std::vector<Remark> choices);
    const Remark& asked() const noexcept { return asked_; }
    const std::vector<Remark>& choices() const noexcept { return choices_; }

private:
    Remark asked_;
    std::vector<Remark> choices_;
};

/// English; tasks as commands of a POSIX shell.
const Phrasebook& english();
/// English; tasks as calls of Python.
const Phrasebook& english_for_python();

}  // namespace coldtally
