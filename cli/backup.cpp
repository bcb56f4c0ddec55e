#include <memory>

#include "coldtally/copies.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, copy;
    FormOptions form;
};

int backup(const Options& options, const Surroundings& surroundings) {
    const LedgerCopy made = back_up(options.ledger, options.copy);
    // nothing here is shown in a zone
    TableStyle style{.zone = Zone("UTC"), .columns = surroundings.columns, .book = &surroundings.book};
    style.color = options.form.color == "always" || (options.form.color == "auto" && surroundings.color);
    surroundings.out.write(options.form.format == "json" ? to_json(made) : to_table(made, style));
    return done;
}

}  // namespace

void add_backup(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("backup", "Copies a ledger that may be in use into a new file, and verifies the copy");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("COPY", options->copy, "the file to make; nothing may be there")->required();
    add_form_options(*command, options->form);
    command->footer(
        folded("The copy is the ledger as it was at one instant, readable by its owner only (on a medium that knows no "
               "owners, as many sticks, by whoever has it). Where it does not verify, none is made. Keep copies on "
               "other media and in another room, and restore one into another place to try it before you need one.") +
        "\n\n" + help_end("coldtally backup clinic.ledger /media/stick/clinic-2026-11-27.ledger"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return backup(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
