#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

int training(const QuestionOptions& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.training(instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_training(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "training", "Lists who was trained in what, until when that is good, and what has lapsed");
    const auto options = std::make_shared<QuestionOptions>();
    add_question_options(*command, *options);
    command->footer(question_help_end("coldtally training clinic.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return training(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
