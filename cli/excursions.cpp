#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    WindowOptions window;
};

int excursions(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    const Instant from = read_from(options.window.from, instants.zone, surroundings.now);
    const Instant until = read_until(options.window.until, instants.zone, surroundings.now, from);
    print(ledger.excursions(options.window.place, from, until, instants.question, surroundings.now), options, ledger,
          surroundings);
    return done;
}

}  // namespace

void add_excursions(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("excursions", "Finds a place's excursions in a window, and the doses that were inside");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    add_window_options(*command, options->window);
    command->footer(question_help_end(
        "coldtally excursions clinic.ledger main --from 2026-03-01T00:00:00 --until 2026-03-08T00:00:00"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return excursions(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
