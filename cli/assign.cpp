#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string probe;
    std::optional<std::string> place;
};

int assign(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("assign", options);
    fields["probe"] = options.probe;
    put(fields, "place", options.place);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_assign(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "assign", "Puts a probe into a place, or takes it out", assign, options,
                                 "coldtally assign p1 main");
    command->add_option("PROBE", options->probe, "the probe's id")->required();
    command->add_option("PLACE", options->place, "the place's id; not given: taken out");
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
