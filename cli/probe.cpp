#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string probe, scale;
    std::optional<std::string> serial;
};

int probe(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("probe", options);
    fields["probe"] = options.probe;
    fields["scale"] = options.scale;
    put(fields, "serial", options.serial);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_probe(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "probe", "Defines a probe", probe, options, "coldtally probe p1 C --serial 4411");
    command->add_option("PROBE", options->probe, "the probe's id")->required();
    command->add_option("SCALE", options->scale, "C or F; it never changes")->required();
    command->add_option("--serial", options->serial, "its serial number");
}

}  // namespace coldtally::cli
