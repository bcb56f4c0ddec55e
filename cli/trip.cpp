#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::string container;
    std::optional<std::string> limit;
};

int trip(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    std::optional<Duration> limit;
    if (options.limit) limit = Duration(read_whole("--limit-s", *options.limit, 1'000'000'000));
    print(ledger.trip(options.container, limit, instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_trip(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("trip", "What happened on the last journey of this container, and to its doses?");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("CONTAINER", options->container, "the container's id")->required();
    command->add_option("--limit-s", options->limit,
                        "how long a journey may last, in seconds; not given: what the programme's rules say");
    command->footer(question_help_end("coldtally trip clinic.ledger box --limit-s 28800"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return trip(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
