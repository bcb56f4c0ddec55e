#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string place;
    std::optional<std::string> name, type, low, high, max_gap, max_check_gap, near;
};

int place(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("place", options);
    fields["place"] = options.place;
    put(fields, "name", options.name);
    put(fields, "type", options.type);
    if (options.low) fields["range"]["low"] = read_limit("--low", *options.low);
    if (options.high) fields["range"]["high"] = read_limit("--high", *options.high);
    if (options.max_gap) fields["max_gap_s"] = read_duration("--max-gap", *options.max_gap);
    if (options.max_check_gap)
        fields["max_check_gap_s"] = read_duration("--max-check-gap", *options.max_check_gap);
    if (options.near) fields["near_s"] = read_duration("--near", *options.near);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_place(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(
        program, run, "place", "Defines a place where doses can be; of one that is known, changes what is stated",
        place, options, "coldtally place main 'Refrigerator, room 4' refrigerator --low 2C/36F --high 8C/46F");
    command->add_option("PLACE", options->place, "the place's id")->required();
    command->add_option("NAME", options->name, "its name; may be left out, as its type, where the place is known");
    command->add_option("TYPE", options->type,
                        "refrigerator, freezer, ultra-cold freezer, transport container or room");
    command->add_option("--low", options->low,
                        "lower limit: 2C, 36F, or 2C/36F; of a new place this or --high must be stated, of a room too");
    command->add_option("--high", options->high, "upper limit: 8C, 46F, or 8C/46F; one side alone asks for a note");
    command->add_option("--max-gap", options->max_gap, "the longest step between two readings: '1 h'");
    command->add_option(
        "--near", options->near,
        "how far a reading in range speaks for the time around it: '30 min' where it is not stated, at most '2 h'");
    command->add_option("--max-check-gap", options->max_check_gap, "the longest step between two checks: '18 h'");
    add_definition_options(*command, *options, "low, high, max-gap, max-check-gap, near");
}

}  // namespace coldtally::cli
