#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

constexpr std::int64_t highest_activation = 1'000'000;

struct Options : QuestionOptions {
    WindowOptions window;
    std::string activation = "10000";
};

int conditions(const Options& options, const Surroundings& surroundings) {
    const std::int64_t activation = read_whole("--activation-K", options.activation, highest_activation);
    if (activation == 0)
        throw Error(Code::bad_value, "--activation-K: 0 is no activation energy; the usual value is 10000");
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    const Instant from = read_from(options.window.from, instants.zone, surroundings.now);
    const Instant until = read_until(options.window.until, instants.zone, surroundings.now, from);
    print(ledger.conditions(options.window.place, from, until, instants.question, surroundings.now, activation),
          options, ledger, surroundings);
    return done;
}

}  // namespace

void add_conditions(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("conditions", "Says how well a place is known in a window, its extremes and means");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    add_window_options(*command, options->window);
    command->add_option("--activation-K", options->activation,
                        "for the mean kinetic temperature: activation energy / gas constant")
        ->capture_default_str();
    command->footer(question_help_end(
        "coldtally conditions clinic.ledger main --from 2026-03-01T00:00:00 --until 2026-04-01T00:00:00"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return conditions(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
