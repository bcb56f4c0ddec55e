// Opening options: a vial of several doses that is opened by the same command.
#pragma once

#include "everyday.hpp"

namespace coldtally::cli {

struct OpeningOptions {
    std::optional<std::string> opened, vial, vial_doses;
};
/// --vial and --vial-doses; with `opened` also --opened.
void add_opening_options(CLI::App& command, OpeningOptions& options, bool opened);
void put_opening(Fields& fields, const OpeningOptions& options);

}  // namespace coldtally::cli
