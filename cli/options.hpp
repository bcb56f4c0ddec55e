// Options: those that several commands share, and what becomes of them.
#pragma once

#include <optional>
#include <string>

#include "coldtally/drafts.hpp"
#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "command.hpp"

namespace coldtally::cli {

/// LEDGER as a word (`word`: its name), and --ledger; which of them it is, ledger_word.hpp says.
void add_ledger(CLI::App& command, std::string& ledger, const std::string& says = "the ledger's file",
                const char* word = "LEDGER");

/// Of a command whose number of words does not tell.
inline constexpr const char* ledger_of_any_words =
    "the ledger's file; beside COLDTALLY_LEDGER a first word is it where it ends in .ledger or is what is set there";

/// How an answer is printed.
struct FormOptions {
    std::string format = "table";  ///< or "json"
    std::string color = "auto";    ///< or "always", "never"
};
void add_form_options(CLI::App& command, FormOptions& options);

/// What is asked of which ledger.
struct QuestionOptions {
    std::string ledger;
    std::optional<std::string> at, known_on;
    FormOptions form;
    bool why = false;  ///< of those that take --why: TableStyle::why
};
void add_question_options(CLI::App& command, QuestionOptions& options, const char* ledger = "the ledger's file");
/// --at and --known-on alone.
void add_instant_options(CLI::App& command, QuestionOptions& options);

/// help_end, after what is to be known of instants.
std::string question_help_end(const std::string& example, const std::string& no = "");

/// A question as it is asked: of one view, so that instants, answer, zone and scale are of one state of the ledger. The
/// view is to be gone before anything is written, since whoever posts waits for it.
struct Viewed {
    Question question;
    View view;  ///< its zone is for the other instants of the command line
};
/// --known-on is read in the zone that holds now, --at in the one known on it.
Viewed view_of(const Ledger& ledger, const QuestionOptions& options, Instant now);
/// typed_instant; Error with the option's name in front.
Instant read_instant(const std::string& option, const std::string& text, const Zone& zone, Instant now);
/// typed_from of --from.
Instant read_from(const std::string& text, const Zone& zone, Instant now);
/// typed_until of --until.
Instant read_until(const std::string& text, const Zone& zone, Instant now, std::optional<Instant> from = std::nullopt);
/// What the help says of --until.
inline constexpr const char* until_says =
    "the instant at which the window ends, itself not in it; a date: that day is in it, to its end";
/// typed_duration in seconds; Error with the option's name in front.
std::int64_t read_duration(const std::string& option, const std::string& text);
/// What the help says of a duration.
inline constexpr const char* duration_says = "as people write it: '28 days', '96 h', '30 min', '1 h 30 min'";
/// Digits alone, without leading zeros, at most `most`; Code::bad_value with the option's name.
std::int64_t read_whole(const std::string& option, const std::string& text, std::int64_t most);

TableStyle table_style(const FormOptions& options, const Ledger& ledger, const Zone& zone,
                       const Surroundings& surroundings);

TableStyle table_style(const FormOptions& options, const View& view, const Surroundings& surroundings);

/// The answer as JSON or as a table, to be written when its view is gone.
template <typename Answer>
std::string printed(const Answer& answer, const QuestionOptions& options, const View& view,
                    const Surroundings& surroundings) {
    if (options.form.format == "json") return to_json(answer);
    TableStyle style = table_style(options.form, view, surroundings);
    style.why = options.why;
    return to_table(answer, style);
}

}  // namespace coldtally::cli
