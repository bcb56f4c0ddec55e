#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string probe, expires;
    std::optional<std::string> number, tolerance;
    std::vector<std::pair<std::string, std::string>> correction;
};

int certificate(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("certificate", options);
    fields["probe"] = options.probe;
    fields["expires"] = options.expires;
    put(fields, "number", options.number);
    put(fields, "tolerance", options.tolerance);
    for (const auto& [indicated, add] : options.correction) fields["correction"].push_back({indicated, add});
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_certificate(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "certificate", "Notes the calibration of a probe", certificate, options,
                 "coldtally certificate p1 2027-09-15 --tolerance 0.5 --correction 0 0.2 --correction 5 0.1");
    command->add_option("PROBE", options->probe, "the probe's id")->required();
    command->add_option("EXPIRES", options->expires, "the last day of its certificate")->required();
    command->add_option("--number", options->number, "the certificate's number");
    command->add_option("--tolerance", options->tolerance, "the tolerance, in the probe's scale");
    command->add_option("--correction", options->correction,
                        "indicated, and what to add; once for each row of the table");
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
