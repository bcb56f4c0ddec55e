#include "opening_options.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions, OpeningOptions {
    std::string lot;
    std::optional<std::string> event, use_by;
};

int beyond_use(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("beyond-use", options);
    put_holding(fields, options);
    put_opening(fields, options);
    fields["lot"] = options.lot;
    put(fields, "event", options.event);
    put(fields, "use_by", options.use_by);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_beyond_use(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "beyond-use", "Shortens how long opened or thawed doses may be used", beyond_use,
                 options, "coldtally beyond-use K0123 --event 'first puncture' --mark 'vial 3'");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("--event", options->event, "one of the product's events, such as 'first puncture'");
    command->add_option("--use-by", options->use_by, "or a date, through whose end they may be used, or an instant");
    add_opening_options(*command, *options, false);
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
