#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string person, topic;
    std::optional<std::string> due, reference;
};

int trained(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("training", options);
    fields["person"] = options.person;
    fields["topic"] = options.topic;
    put(fields, "due", options.due);
    put(fields, "reference", options.reference);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_trained(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "trained", "Notes that somebody was trained", trained, options,
                                 "coldtally trained 'A. Person' storage --due 2027-03-02 --reference 'folder 3'");
    command->add_option("PERSON", options->person, "who")->required();
    command->add_option("TOPIC", options->topic, "in what")->required();
    command->add_option("--due", options->due, "the last day by which to be trained again");
    command->add_option("--reference", options->reference, "where the proof is kept");
}

}  // namespace coldtally::cli
