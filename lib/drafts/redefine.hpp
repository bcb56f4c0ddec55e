// Redefine: a definition of a thing that is known changes what it states, and keeps the rest of the one that holds.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/words.hpp"
#include "ledger/known.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// Site, product, lot, place, probe or maker: kinds whose last entry holds.
bool is_redefined(const std::string& kind);

/// The definition that holds of the thing that `fact` defines; none where it is no such definition, or the first.
std::optional<Fact> held(const ledger::Known& known, const ledger::Store& store, const Fact& fact);

/// What holds of a thing, and what would hold of it by another definition, or with one that is taken back; without the
/// programme's only rules: rules that ask nothing.
struct Redefined {
    Fact before, after;
};
/// None where the entry changes no definition that holds, or leaves none.
std::optional<Redefined> redefined(const ledger::Known& known, const ledger::Store& store, const Fact& fact);

/// Makes the JSON of a definition whole. What `fields` leave out is taken from the definition of the same thing that
/// holds, sides of the range, events of beyond_use and GTINs each for itself, unless `fields["without"]`, a list of
/// names, drops it; "without" is removed from them. Allowances are left to keep_allowances. `kept`: what was kept, as
/// people call it. Code::bad_value for a name that is none of the kind's, and, a Refusal, for the name of a thing that
/// is what can be dropped; Code::contradiction for what is not stated so far; Code::not_defined for "without" where
/// nothing is known; Code::missing_field where one scale is stated of a limit that is known in both.
void keep_known(const ledger::Known& known, text::Json& fields, std::vector<Field>& kept);

/// The allowances of a product that is known: those of other bands than its own are kept, in their order, but for the
/// dropped ones
/// ("allowances", "allowance 2"). A band that the product states begins and ends where its range or another band does
/// in both scales.
void keep_allowances(const ledger::Known& known, Product& product, const std::vector<std::string>& without,
                     std::vector<Field>& kept, std::vector<Remark>& filled);

/// The names in `fields["without"]`, with _ for -, which are removed. Code::bad_value unless a list of texts.
std::vector<std::string> take_without(text::Json& fields);

}  // namespace coldtally::answers
