#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::optional<std::string> patient;
};

int immunizations(const Options& options, const Surroundings& surroundings) {
    const auto answer = [&] {
        const Ledger ledger(options.ledger);
        return view_of(ledger, options, surroundings.now).view.immunizations(options.patient);
    }();
    surroundings.out.write(to_ndjson(answer));
    return done;
}

}  // namespace

void add_immunizations(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("immunizations", "Prints doses given as HL7 FHIR R4 Immunization resources");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    add_instant_options(*command, *options);
    command->add_option("--patient", options->patient, "the doses of this token alone");
    command->footer(folded("One resource a line (application/fhir+ndjson), in the order of entry. What the ledger "
                           "knows of a dose's storage is in its notes; isSubpotent is never set: "
                           "that is a clinical decision of people. " +
                           std::string(caution) + " " + review_caution) +
                    "\n\n" + question_help_end("coldtally immunizations clinic.ledger > given.ndjson"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return immunizations(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
