#include <memory>

#include "coldtally/copies.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string copy, ledger;
    FormOptions form;
};

int restore(const Options& options, const Surroundings& surroundings) {
    const LedgerCopy made = coldtally::restore(options.copy, options.ledger);
    // nothing here is shown in a zone
    TableStyle style{.zone = Zone("UTC"), .columns = surroundings.columns, .book = &surroundings.book};
    style.color = options.form.color == "always" || (options.form.color == "auto" && surroundings.color);
    surroundings.out.write(options.form.format == "json" ? to_json(made) : to_table(made, style));
    return done;
}

}  // namespace

void add_restore(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("restore", "Makes a ledger from a copy that verifies, also from one of an older format");
    const auto options = std::make_shared<Options>();
    command->add_option("COPY", options->copy, "the copy; it stays as it is")->required();
    add_ledger(*command, options->ledger, "the ledger to make; nothing may be there", "NEW");
    add_form_options(*command, options->form);
    command->footer(
        folded("The new ledger is readable by its owner only. A damaged one stays where it is: restore beside it, "
               "compare, and then let the new one take its place.") +
        "\n\n" + help_end("coldtally restore /media/stick/clinic-2026-11-27.ledger clinic-restored.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return restore(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
