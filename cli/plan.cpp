#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    bool check = false;
};

int plan(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    const PlanAnswer answer = ledger.plan(instants.question, surroundings.now);
    print(answer, options, ledger, surroundings);
    return options.check && !answer.findings.empty() ? answer_is_no : done;
}

}  // namespace

void add_plan(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "plan", "Prints the contingency plan in calling order, and what is missing or old in it");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_flag("--check", options->check, "ends with status 1 where anything is missing or old");
    command->footer(
        question_help_end("coldtally plan clinic.ledger --check", "with --check: something is missing or old"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return plan(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
