#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::string place;
    std::optional<std::string> into;
};

int move_list(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.move_list(options.place, options.into, instants.question, surroundings.now), options, ledger,
          surroundings);
    return done;
}

}  // namespace

void add_move_list(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "move-list", "What is in this place, in which order to move it, and may the container take it?");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("PLACE", options->place, "the place's id")->required();
    command->add_option("--into", options->into, "the container's id: says what its range means for each product");
    command->footer(folded("Frozen products come first, then what may be used for the shortest time; what is to be "
                           "discarded comes last.") +
                    "\n\n" + question_help_end("coldtally move-list clinic.ledger main --into box"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return move_list(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
