#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string give, eligible, reason;
};

int loan(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("loan", options);
    fields["give"] = read_number("GIVE", options.give);
    fields["eligible"] = options.eligible;
    fields["reason"] = options.reason;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_loan(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "loan", "Notes that doses given came out of a fund that should not have paid", loan,
                 options, "coldtally loan 151 private 'order delayed'");
    command->add_option("GIVE", options->give, "the number of the give")->required();
    command->add_option("FUND", options->eligible, "the fund that should have paid; '': the empty one")->required();
    command->add_option("REASON", options->reason, "why")->required();
}

}  // namespace coldtally::cli
