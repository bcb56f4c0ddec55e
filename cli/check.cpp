#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string place, temperature;
    std::optional<std::string> min, max, probe;
};

int check(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("check", options);
    fields["place"] = options.place;
    put(fields, "probe", options.probe);
    put_temperature(fields, "temperature", options.temperature);
    if (options.min) put_temperature(fields, "min", *options.min);
    if (options.max) put_temperature(fields, "max", *options.max);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_check(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "check", "Notes a temperature read from a place", check, options,
                                 "coldtally check main 4.2 --min 3.1 --max 6.0");
    command->add_option("PLACE", options->place, "the place's id")->required();
    command
        ->add_option("TEMPERATURE", options->temperature,
                     "as read: 4.2, 4.2C, 39.6F; without letter: in the scale it is always read in")
        ->required();
    command->add_option("--min", options->min, "the lowest since the check before");
    command->add_option("--max", options->max, "the highest since the check before");
    command->add_option("--probe", options->probe, "the probe it was read from");
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
