// Questions: the commands that ask one thing of a ledger and print the answer, a row each.
#include <algorithm>
#include <memory>
#include <stdexcept>
#include <variant>
#include <vector>

#include "options.hpp"

namespace coldtally::cli {

namespace {

/// What the words of a question may say; each row states which it takes.
struct Asked : QuestionOptions {
    std::optional<std::string> place, product, lot, mark, fund, container, into, code, from, until, limit, activation,
        patient, kind, by, text, last, name;
    bool all = false, patients = false, check = false;
};

/// What a question prints, and its exit status.
struct Said {
    std::string text;
    int status = done;
};

/// A question whose instants are read.
struct Asking {
    const View& view;
    const Asked& asked;
    const Question& question;
    const Surroundings& surroundings;
    std::optional<Instant> from, until;

    template <class Answer>
    Said say(const Answer& answer) const {
        return {printed(answer, asked, view, surroundings)};
    }
    /// The same; with --check, status 1 where it found anything.
    template <class Answer>
    Said say_found(const Answer& answer) const {
        Said out = say(answer);
        if (asked.check && !answer.findings.empty()) out.status = answer_is_no;
        return out;
    }
};

using Text = std::optional<std::string> Asked::*;
using Flag = bool Asked::*;

struct Word {
    std::string name;
    std::variant<Text, Flag> kept;
    std::string says;
    bool required = false;
};
constexpr bool required = true;

struct QuestionCommand {
    const char *name, *says;
    std::string example;
    std::vector<Word> words;
    Said (*ask)(const Asking&);
    std::string note = "";  ///< of the help page, before what is said of instants
    const char* no = "";    ///< what status 1 means
};

constexpr std::int64_t usual_days = 30, highest_activation = 1'000'000;

std::int64_t activation(const Asked& asked) {
    const std::int64_t stated = read_whole("--activation-K", asked.activation.value_or("10000"), highest_activation);
    if (stated == 0)
        throw Error(Code::bad_value, "--activation-K: 0 is no activation energy; the usual value is 10000");
    return stated;
}

EnteredRequest entered_request(const Asking& a) {
    EnteredRequest out;
    out.from = a.from;
    out.until = a.until;
    out.place = a.asked.place;
    out.product = a.asked.product;
    out.lot = a.asked.lot;
    out.patient = a.asked.patient;
    out.kind = a.asked.kind;
    out.by = a.asked.by;
    out.text = a.asked.text;
    out.patients = a.asked.patients;
    if (a.asked.all && a.asked.last)
        throw Error(Code::contradiction, "--last: is not stated with --all, which is every one");
    if (a.asked.last) out.most = read_whole("--last", *a.asked.last, 1'000'000'000);
    if (a.asked.last && out.most == 0) throw Error(Code::bad_value, "--last: \"0\": must be at least 1");
    if (a.asked.all) out.most = 0;
    return out;
}

const Word the_place{"PLACE", &Asked::place, "the place's id", required};
const Word why{"--why", &Asked::why, "with all that is behind each line: reasons, notes, figures"};

std::vector<QuestionCommand> questions_of_doses() {
    return {
        {"today",
         "One screen to begin and end the day: what must not be used, units, incidents, what is due",
         "coldtally today clinic.ledger",
         {},
         [](const Asking& a) { return a.say(a.view.today()); },
         folded("It says what it looked at and what it did not: a quiet day is no word that doses may be used. lists, "
                "incident, dates and readiness say all of what it tells in short.") +
             "\n\n" + folded(caution)},
        {"stock",
         "Says which doses are where, and where all others went",
         "coldtally stock clinic.ledger --at 2026-03-02T08:05:00",
         {},
         [](const Asking& a) { return a.say(a.view.stock()); }},
        {"lists",
         "Sorts all doses: discard, quarantine until guidance comes, keep; with reasons",
         "coldtally lists clinic.ledger",
         {why},
         [](const Asking& a) { return a.say(a.view.lists()); },
         folded("A line a holding, with the gravest of the reasons, and what must be known before doses are used; what "
                "must not be used comes first.") +
             "\n\n" + folded(caution)},
        {"dates",
         "Says until when doses may be used, what sets that, and which to use first",
         "coldtally dates clinic.ledger",
         {},
         [](const Asking& a) { return a.say(a.view.dates()); }},
        {"scan",
         "Says what the code on a box means, and on which list its lot is",
         "coldtally scan clinic.ledger '(01)09521234543213(17)270531(10)K0123'",
         {{"CODE", &Asked::code,
           "what a scanner reads (GS1), or the form printed beneath the code: '(01)09521234543213(17)270531(10)K0123'",
           required}},
         [](const Asking& a) { return a.say(a.view.scan(*a.asked.code)); },
         folded("receive, give, waste, return, transfer, count, move, hold, guidance and beyond-use take the code in "
                "place of the lot: it then states lot and product, and in a delivery the expiry.") +
             "\n\n" + folded(caution)},
        {"explain",
         "Says why a holding is on its list, in the order of time",
         "coldtally explain clinic.ledger main mmr K0123 --mark 'bin 2'",
         {the_place,
          {"PRODUCT", &Asked::product, "the product's id", required},
          {"LOT", &Asked::lot, "the lot's number", required},
          {"--mark", &Asked::mark, "the mark that keeps the doses apart; not given: the unmarked ones"},
          {"--fund", &Asked::fund, "the fund; not given: the empty one"}},
         [](const Asking& a) {
             HoldingKey holding;
             holding.place = *a.asked.place;
             holding.product = *a.asked.product;
             holding.lot = *a.asked.lot;
             holding.mark = a.asked.mark.value_or("");
             holding.fund = a.asked.fund.value_or("");
             return a.say(a.view.explain(holding));
         }},
    };
}

std::vector<QuestionCommand> questions_of_places() {
    const std::string window_end = until_says;
    const Word from{"--from", &Asked::from, "the first instant of the window; a date: that day's first", required};
    const Word until{"--until", &Asked::until, window_end, required};
    const Word activation_K{
        "--activation-K", &Asked::activation,
        "for the mean kinetic temperature: activation energy / gas constant; not given: 10000"};
    return {
        {"excursions",
         "Finds a place's excursions in a window, and the doses that were inside",
         "coldtally excursions clinic.ledger main --from 2026-03-01T00:00:00 --until 2026-03-08T00:00:00",
         {the_place, from, until},
         [](const Asking& a) {
             return a.say(a.view.excursions(*a.asked.place, *a.from, *a.until));
         }},
        {"conditions",
         "Says how well a place is known in a window, its extremes and means",
         "coldtally conditions clinic.ledger main --from 2026-03-01T00:00:00 --until 2026-04-01T00:00:00",
         {the_place, from, until, activation_K},
         [](const Asking& a) {
             return a.say(
                 a.view.conditions(*a.asked.place, *a.from, *a.until, activation(a.asked)));
         }},
        {"unit",
         "Tells the history of a storage unit by month: excursions, coverage, means, hours, devices that disagree",
         "coldtally unit clinic.ledger main",
         {the_place,
          {"--from", &Asked::from,
           "the first instant; a date: that day's first; not given: that of the first thing known of the place, its "
           "definition as it was posted, a reading or a check"},
          {"--until", &Asked::until, window_end + "; not given: that of the question"},
          activation_K},
         [](const Asking& a) {
             return a.say(a.view.unit(*a.asked.place, a.from, a.until, activation(a.asked)));
         }},
        {"rules",
         "Says what the programme asks for, and which of its conditions were met where",
         "coldtally rules clinic.ledger main --from 2026-03-01T00:00:00",
         {{"PLACE", &Asked::place, "the place's id; not given: every place"},
          {"--from", &Asked::from,
           "the first instant of the window; a date: that day's first; not given: 30 days before its end"},
          {"--until", &Asked::until, window_end + "; not given: that of the question"}},
         [](const Asking& a) {
             const Instant end = a.until ? *a.until : a.question.at.value_or(a.surroundings.now);
             return a.say(a.view.rules(a.asked.place, a.from.value_or(end - Duration(usual_days * 86400)), end));
         }},
    };
}

std::vector<QuestionCommand> questions_of_given_doses() {
    return {
        {"review",
         "Lists doses given that may need review",
         "coldtally review clinic.ledger",
         {{"--all", &Asked::all, "also the doses at which nothing was found"}, why},
         [](const Asking& a) { return a.say(a.view.review(a.asked.all)); },
         folded("Not viable first, a line a dose; those that guidance cleared are a number.") + "\n\n" +
             folded(std::string(caution) + " " + review_caution)},
        {"follow-up",
         "Lists doses under review, or of a recalled lot, with what was done about each",
         "coldtally follow-up clinic.ledger --lot K0123",
         {{"--lot", &Asked::lot, "a recall: every dose given of this lot; not given: the review list"},
          {"--product", &Asked::product, "the product of that lot"}},
         [](const Asking& a) { return a.say(a.view.follow_up(a.asked.lot, a.asked.product)); }},
    };
}

std::vector<QuestionCommand> questions_of_moving() {
    return {
        {"plan",
         "Prints the contingency plan in calling order, and what is missing or old in it",
         "coldtally plan clinic.ledger --check",
         {{"--check", &Asked::check, "ends with status 1 where anything is missing or old"}},
         [](const Asking& a) { return a.say_found(a.view.plan()); },
         "",
         "with --check: something is missing or old"},
        {"move-list",
         "What is in this place, in which order to move it, and may the container take it?",
         "coldtally move-list clinic.ledger main --into box",
         {the_place, {"--into", &Asked::into, "the container's id: says what its range means for each product"}},
         [](const Asking& a) { return a.say(a.view.move_list(*a.asked.place, a.asked.into)); },
         folded("Frozen products come first, then what may be used for the shortest time; what is to be discarded "
                "comes last.")},
        {"trip",
         "What happened on the last journey of this container, and to its doses?",
         "coldtally trip clinic.ledger box --limit '8 h'",
         {{"CONTAINER", &Asked::container, "the container's id", required},
          {"--limit", &Asked::limit,
           "how long a journey may last: '8 h'; not given: what the programme's rules say"}},
         [](const Asking& a) {
             std::optional<Duration> limit;
             if (a.asked.limit) limit = Duration(read_duration("--limit", *a.asked.limit));
             return a.say(a.view.trip(*a.asked.container, limit));
         }},
    };
}

std::vector<QuestionCommand> questions_of_records() {
    return {
        {"readiness",
         "Says what an inspector would find missing today, since when, by what rule, and what was looked at",
         "coldtally readiness clinic.ledger --check",
         {{"--from", &Asked::from,
           "how far back checks, temperatures and certificates are looked at; not given: a year"},
          {"--check", &Asked::check, "ends with status 1 where anything is found"},
          why},
         [](const Asking& a) { return a.say_found(a.view.readiness(a.from)); },
         folded("What endangers doses now comes first; several of one matter are one line."),
         "with --check: something was found"},
        {"accountability",
         "Accounts for every dose of a period by product, lot and fund",
         "coldtally accountability clinic.ledger --from 2026-03-01T00:00:00 --until 2026-04-01T00:00:00",
         {{"--from", &Asked::from, "the first instant of the period; a date: that day's first", required},
          {"--until", &Asked::until,
           "the instant at which the period ends, itself not in it; a date: that day is in it, to its end", required}},
         [](const Asking& a) { return a.say(a.view.accountability(*a.from, *a.until)); }},
        {"loans",
         "Lists doses of one fund that another fund owes it",
         "coldtally loans clinic.ledger",
         {{"--all", &Asked::all, "also those that are repaid"},
          {"--patients", &Asked::patients, "with the tokens of the patients"}},
         [](const Asking& a) { return a.say(a.view.loans(a.asked.all, a.asked.patients)); }},
        {"entries",
         "Lists what was entered, with what took it back and the way to take it back",
         "coldtally entries clinic.ledger --lot K0123 --from 2026-03-02",
         {{"--from", &Asked::from, "happened or entered from then on; a date: from that day's first instant"},
          {"--until", &Asked::until, until_says},
          {"--place", &Asked::place, "names this place, or is of its logger"},
          {"--product", &Asked::product, "names this product"},
          {"--lot", &Asked::lot, "names this lot"},
          {"--patient", &Asked::patient, "a dose given to this token, and what is about it"},
          {"--kind", &Asked::kind,
           "of this kind: give, waste, receive, move, count, check, readings, hold, guidance, takeback, ..."},
          {"--by", &Asked::by, "entered by these initials"},
          {"--text", &Asked::text, "with this in what was typed: notes, reasons, names; small letters or capitals"},
          {"--last", &Asked::last, "so many, the last of them; not given: 40"},
          {"--all", &Asked::all, "all of them"},
          {"--patients", &Asked::patients, "with the tokens of the patients"}},
         [](const Asking& a) { return a.say(a.view.entered(entered_request(a))); },
         folded("All that is stated must fit. Of a taking back, a step with a patient and a loan it is the entry that "
                "they are about. The last entry stands last.")},
        {"show",
         "Shows what is defined under a name, as it holds, and how it came to be so",
         "coldtally show clinic.ledger mmr",
         {{"NAME", &Asked::name,
           "a place, product, lot, probe or person; site, rules; not given: the names that there are"},
          {"--kind", &Asked::kind, "only as a product, lot, place, probe, maker, person; site and rules need no name"}},
         [](const Asking& a) { return a.say(a.view.show({a.asked.name, a.asked.kind})); },
         folded("Limits are said in both scales, durations in words, and what is not stated, too. Of a certificate, of "
                "where a probe is, and of training what holds at --at.")},
        {"training",
         "Lists who was trained in what, until when that is good, and what has lapsed",
         "coldtally training clinic.ledger",
         {},
         [](const Asking& a) { return a.say(a.view.training()); }},
    };
}

const std::vector<QuestionCommand>& questions() {
    static const std::vector<QuestionCommand> rows = [] {
        std::vector<QuestionCommand> out;
        for (const auto group : {questions_of_doses, questions_of_places, questions_of_given_doses,
                                 questions_of_moving, questions_of_records})
            for (QuestionCommand& row : group()) out.push_back(std::move(row));
        return out;
    }();
    return rows;
}

int ask(const QuestionCommand& command, const Asked& asked, const Surroundings& surroundings) {
    const Said said = [&] {
        const Ledger ledger(asked.ledger);
        const Viewed seen = view_of(ledger, asked, surroundings.now);
        Asking asking{seen.view, asked, seen.question, surroundings, {}, {}};
        if (asked.from) asking.from = read_from(*asked.from, seen.view.zone(), surroundings.now);
        if (asked.until) asking.until = read_until(*asked.until, seen.view.zone(), surroundings.now, asking.from);
        return command.ask(asking);
    }();
    surroundings.out.write(said.text);
    return said.status;
}

}  // namespace

void add_question(const char* name, CLI::App& program, Run& run) {
    const auto row = std::find_if(questions().begin(), questions().end(),
                                  [&](const QuestionCommand& q) { return q.name == std::string_view(name); });
    if (row == questions().end()) throw std::logic_error(std::string(name) + ": there is no such question");
    CLI::App* command = program.add_subcommand(row->name, row->says);
    const auto asked = std::make_shared<Asked>();
    const bool any_words = std::any_of(row->words.begin(), row->words.end(),
                                       [](const Word& word) { return !word.required && !word.name.starts_with("-"); });
    add_question_options(*command, *asked, any_words ? ledger_of_any_words : "the ledger's file");
    for (const Word& word : row->words)
        if (const auto* flag = std::get_if<Flag>(&word.kept))
            command->add_flag(word.name, (*asked).*(*flag), word.says);
        else
            command->add_option(word.name, (*asked).*std::get<Text>(word.kept), word.says)->required(word.required);
    command->footer((row->note.empty() ? "" : row->note + "\n\n") + question_help_end(row->example, row->no));
    command->callback([&question = *row, asked, &run] {
        run = [&question, asked](const Surroundings& surroundings) { return ask(question, *asked, surroundings); };
    });
}

}  // namespace coldtally::cli
