#include "opening_options.hpp"

namespace coldtally::cli {

void add_opening_options(CLI::App& command, OpeningOptions& options, bool opened) {
    if (opened)
        command.add_option("--opened", options.opened,
                           "a vial of several doses was opened for it, and when: 08:05 (today), '2026-03-02 08:05'; "
                           "with --vial alone: at that instant");
    command.add_option(
        "--vial", options.vial,
        opened ? "a mark for that vial, which keeps its doses and their use-by apart; not given: one by the time"
               : "one vial of them was opened: a mark for it, which keeps its doses apart");
    command.add_option("--vial-doses", options.vial_doses,
                       "what was in that vial when it was opened; not given: a whole vial's doses");
}

void put_opening(Fields& fields, const OpeningOptions& options) {
    put(fields, "opened", options.opened);
    put(fields, "vial", options.vial);
    if (options.vial_doses) fields["vial_doses"] = read_doses("--vial-doses", *options.vial_doses);
}

}  // namespace coldtally::cli
