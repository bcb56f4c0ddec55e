#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::optional<std::string> incident, maker, place, from;
    bool patients = false;
};

std::string asked(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const auto [question, view] = view_of(ledger, options, surroundings.now);
    if (options.incident)
        return printed(view.incident(*options.incident, options.maker, options.patients), options, view, surroundings);
    if (options.maker) throw Error(Code::missing_field, "INCIDENT: is missing: --maker is asked of one incident");
    if (options.patients) throw Error(Code::missing_field, "INCIDENT: is missing: --patients is asked of one incident");
    const Instant from = options.from ? read_from(*options.from, view.zone(), surroundings.now) : Instant(0);
    const Instant until = question.at.value_or(surroundings.now);
    return printed(view.incidents(options.place, std::nullopt, from, until), options, view, surroundings);
}

int incident(const Options& options, const Surroundings& surroundings) {
    surroundings.out.write(asked(options, surroundings));
    return done;
}

}  // namespace

void add_incident(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "incident",
        "Shows the whole of an incident, for telling the health department and makers; without one, lists them all");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options, ledger_of_any_words);
    command->add_option("INCIDENT", options->incident,
                        "the incident's name; not given: every incident, and excursions without one");
    command->add_option("--maker", options->maker, "only what concerns this maker's products");
    command->add_flag("--patients", options->patients, "with the tokens of the patients, who are a number otherwise");
    command->add_option("--place", options->place, "of the list: only excursions of this place");
    command->add_option("--from", options->from, "of the list: only excursions from this instant on");
    command->footer(folded("First what it is, what must not be used and what is to be done by when; then the report. "
                           "Doses at which nothing was found are a number, unless the patients are asked for.") +
                    "\n\n" + folded(std::string(caution) + " " + review_caution) + "\n\n" +
                    question_help_end("coldtally incident clinic.ledger 2026-1"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return incident(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
