#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

int dates(const QuestionOptions& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.dates(instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_dates(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("dates", "Says until when doses may be used, what sets that, and which to use first");
    const auto options = std::make_shared<QuestionOptions>();
    add_question_options(*command, *options);
    command->footer(question_help_end("coldtally dates clinic.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return dates(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
