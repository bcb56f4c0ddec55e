#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    bool all = false, patients = false;
};

int loans(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.loans(instants.question, surroundings.now, options.all, options.patients), options, ledger,
          surroundings);
    return done;
}

}  // namespace

void add_loans(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("loans", "Lists doses of one fund that another fund owes it");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_flag("--all", options->all, "also those that are repaid");
    command->add_flag("--patients", options->patients, "with the tokens of the patients");
    command->footer(question_help_end("coldtally loans clinic.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return loans(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
