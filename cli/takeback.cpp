#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string entry, reason;
};

int takeback(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("void", options);
    fields["voids"] = read_number("ENTRY", options.entry);
    fields["reason"] = options.reason;
    return post_with_changes(options, fields, surroundings);
}

}  // namespace

void add_takeback(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "takeback", "Takes back an entry that was a mistake, and says what that changes", takeback, options,
                                 "coldtally takeback 812 'entered twice' --dry-run");
    command->add_option("ENTRY", options->entry, "the number of the entry")->required();
    command->add_option("REASON", options->reason, "why")->required();
}

}  // namespace coldtally::cli
