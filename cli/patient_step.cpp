#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string patient, step;
    std::optional<std::string> text, give, lot, product;
    bool every = false;
};

int patient_step(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("follow-up", options);
    fields["patient"] = options.patient;
    fields["step"] = options.step;
    put(fields, "text", options.text);
    put(fields, "lot", options.lot);
    put(fields, "product", options.product);
    if (options.give) fields["give"] = read_whole("--give", *options.give, 1'000'000'000'000);
    if (options.every) fields["every"] = true;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_patient_step(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "patient-step", "Notes what was done about a dose under review or recalled",
                 patient_step, options, "coldtally patient-step t-4711 told --text 'by telephone'");
    command->add_option("PATIENT", options->patient, "the patient's token, or the number of the give")->required();
    command->add_option("STEP", options->step, "what was done")
        ->required()
        ->check(CLI::IsMember({"decided", "told", "answered", "repeated", "tested", "no answer", "not needed"}));
    command->add_option("--text", options->text, "in words, without names");
    command->add_option("--give", options->give, "the number of the give, where the patient had several");
    command->add_option("--lot", options->lot, "only doses of this lot");
    command->add_option("--product", options->product, "only doses of this product");
    command->add_flag("--every", options->every,
                      "the step is of each of the patient's doses: on the review list, or of --lot");
}

}  // namespace coldtally::cli
