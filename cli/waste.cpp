#include "opening_options.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions, OpeningOptions {
    std::string lot, doses, reason;
};

int waste(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("waste", options);
    put_holding(fields, options);
    put_opening(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    fields["reason"] = options.reason;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_waste(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "waste", "Notes doses wasted", waste, options,
                                 "coldtally waste K0123 1 'dropped and broken'");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("REASON", options->reason, "why")->required();
    add_opening_options(*command, *options, true);
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
