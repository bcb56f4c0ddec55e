#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string probe;
    std::optional<std::string> scale, serial;
};

int probe(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("probe", options);
    fields["probe"] = options.probe;
    put(fields, "scale", options.scale);
    put(fields, "serial", options.serial);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_probe(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "probe", "Defines a probe", probe, options, "coldtally probe p1 C --serial 4411");
    command->add_option("PROBE", options->probe, "the probe's id")->required();
    command->add_option("SCALE", options->scale,
                        "C or F; it never changes, and may be left out where the probe is known");
    command->add_option("--serial", options->serial, "its serial number");
    add_definition_options(*command, *options, "serial");
}

}  // namespace coldtally::cli
