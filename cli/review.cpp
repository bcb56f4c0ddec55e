#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    bool all = false;
};

int review(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.review(instants.question, surroundings.now, options.all), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_review(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("review", "Lists doses given that may need review");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_flag("--all", options->all, "also the doses at which nothing was found");
    command->footer(folded(std::string(caution) + " " + review_caution) + "\n\n" +
                    question_help_end("coldtally review clinic.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return review(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
