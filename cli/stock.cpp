#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

int stock(const QuestionOptions& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.stock(instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_stock(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("stock", "Says which doses are where, and where all others went");
    const auto options = std::make_shared<QuestionOptions>();
    add_question_options(*command, *options);
    command->footer(question_help_end("coldtally stock clinic.ledger --at 2026-03-02T08:05:00"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return stock(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
