#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, doses;
};

int count(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("count", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_count(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(
        program, run, "count", "Notes a count of the doses in a place; the difference to the book is kept as variance",
        count, options, "coldtally count K0123 19 --place main");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many were counted, from 0")->required();
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
