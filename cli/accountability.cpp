#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::string from, until;
};

int accountability(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    const Instant from = read_from(options.from, instants.zone, surroundings.now);
    const Instant until = read_until(options.until, instants.zone, surroundings.now, from);
    print(ledger.accountability(from, until, instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_accountability(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("accountability", "Accounts for every dose of a period by product, lot and fund");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("--from", options->from, "the first instant of the period; a date: that day's first")
        ->required();
    command
        ->add_option("--until", options->until,
                     "the instant at which the period ends, itself not in it; a date: that day is in it, to its end")
        ->required();
    command->footer(question_help_end(
        "coldtally accountability clinic.ledger --from 2026-03-01T00:00:00 --until 2026-04-01T00:00:00"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return accountability(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
