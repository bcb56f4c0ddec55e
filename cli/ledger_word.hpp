// Ledger word: which word of a command line is the ledger. --ledger goes before COLDTALLY_LEDGER; where either names
// the ledger, the number of words tells whether LEDGER stands there, too. No file is looked at.
#pragma once

#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace coldtally::cli {

/// The arguments after the command's name, with the ledger as a word in its place where the command has one. `set`:
/// COLDTALLY_LEDGER, empty where it is not. coldtally::Error for a word too many, an unknown option, or a ledger that
/// is named twice; `private_words`: the message repeats none of them.
std::vector<std::string> with_ledger(const CLI::App& command, std::vector<std::string> arguments,
                                     const std::string& set, bool private_words);

/// What to add to a refusal where the first word names a file and was not taken for the ledger, since the number of
/// words does not tell and COLDTALLY_LEDGER names one; else nothing.
std::string ledger_hint(const CLI::App& command, const std::vector<std::string>& arguments, const std::string& set);

}  // namespace coldtally::cli
