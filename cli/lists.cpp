#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

int lists(const QuestionOptions& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.lists(instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_lists(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "lists", "Sorts all doses: discard, quarantine until guidance comes, keep; with reasons");
    const auto options = std::make_shared<QuestionOptions>();
    add_question_options(*command, *options);
    command->footer(folded(caution) + "\n\n" + question_help_end("coldtally lists clinic.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return lists(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
