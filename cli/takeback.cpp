#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string entry, reason;
};

int takeback(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("void", options);
    fields["voids"] = read_number("ENTRY", options.entry);
    fields["reason"] = options.reason;
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_takeback(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "takeback",
                 "Takes back an entry that was a mistake, says what that changes, and asks where it loosens anything",
                 takeback, options, "coldtally takeback 812 'entered twice' --dry-run");
    command->add_option("ENTRY", options->entry, "the number of the entry")->required();
    command->add_option("REASON", options->reason, "why")->required();
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
