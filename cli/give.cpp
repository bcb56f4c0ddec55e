#include "opening_options.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions, OpeningOptions {
    std::string lot, patient;
    std::optional<std::string> doses;
    bool lot_only = false;
};

int give(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("give", options);
    put_holding(fields, options);
    put_opening(fields, options);
    fields["lot"] = options.lot;
    fields["patient"] = options.patient;
    if (options.doses) fields["doses"] = read_doses("--doses", *options.doses);
    if (options.lot_only) fields["certain"] = false;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_give(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "give", "Notes a dose given", give, options, "coldtally give K0123 t-4711");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("PATIENT", options->patient, "the patient's token, never a name")->required();
    command->add_option("--doses", options->doses, "how many; not given: 1");
    command->add_flag("--lot-only", options->lot_only, "the chart names the lot and not the box");
    add_opening_options(*command, *options, true);
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
