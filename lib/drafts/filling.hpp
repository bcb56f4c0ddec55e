// Filling: what a draft leaves open and the ledger has one answer to. Where there are several they are named, never
// chosen.
#pragma once

#include <string>
#include <vector>

#include "coldtally/words.hpp"
#include "question/world.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

class Filling {
public:
    /// Both must outlive this.
    Filling(World& world, std::vector<Remark>& filled) : w_(world), filled_(filled) {}

    /// Place, product, lot, fund and mark of a holding with doses, by those that are stated.
    /// Code::ambiguous where several match, Code::not_there where none does. Returns its doses.
    Doses holding(text::Json& fields, text::Json& at_place);
    /// The product of a stated lot. Code::ambiguous, Code::not_defined.
    void product_of_lot(text::Json& fields);
    /// Where a delivery goes, and into whose stock.
    void receiving(text::Json& fields);
    /// The scale a place is read in.
    void scale_of(text::Json& fields);
    /// The lot's number is defined for some product; else Code::not_defined, with the lots that it may be.
    void known_lot(const std::string& number) const;

    void note(Remark what) { filled_.push_back(std::move(what)); }

private:
    World& w_;
    std::vector<Remark>& filled_;
};

/// What names a patient in a ledger; `field` begins the message. Code::bad_value for one with blanks.
void check_token(const std::string& token, const std::string& field);
/// Is the field there, as text? Its text, or empty.
bool is_stated(const text::Json& fields, const char* field);
std::string stated(const text::Json& fields, const char* field);

}  // namespace coldtally::answers
