#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::optional<std::string> from;
    bool check = false;
};

int readiness(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    std::optional<Instant> from;
    if (options.from) from = read_from(*options.from, instants.zone, surroundings.now);
    const ReadinessAnswer answer = ledger.readiness(from, instants.question, surroundings.now);
    print(answer, options, ledger, surroundings);
    return options.check && !answer.findings.empty() ? answer_is_no : done;
}

}  // namespace

void add_readiness(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "readiness",
        "Says what an inspector would find missing today, since when, by what rule, and what was looked at");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("--from", options->from,
                        "how far back checks, temperatures and certificates are looked at; not given: a year");
    command->add_flag("--check", options->check, "ends with status 1 where anything is found");
    command->footer(
        question_help_end("coldtally readiness clinic.ledger --check", "with --check: something was found"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return readiness(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
