// Handover file: what a receive takes in from the site that sent the doses, bound to the doses that it was written for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "question/world.hpp"
#include "stock/sender_note.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// A receive by a handover: made before its fields are filled in, asked once they are.
class HandoverFile {
public:
    /// Takes `no_hold` out of a receive's fields, and leaves the history alone of a handover that is whole.
    /// Code::missing_field or bad_value for a handover that is neither whole nor a history alone, Code::contradiction
    /// where the sender's guidance says discard.
    HandoverFile(text::Json& fields, const Zone& zone);

    /// Warns of what does not fit the doses received, the last entry of `out`. Code::handover_differs for another
    /// product or lot, or more doses than it states; Code::missing_field for a way longer than the place's near_s
    /// without a note or a hold; Code::contradiction for a reason against a hold with nothing to
    /// hold. The world is asked at the entry's instant and does not know the entries.
    /// `held_here`: an incident of this site holds them.
    void check(World& world, Drafted& out, bool held_here = false);
    /// Adds to the receive's note what it came by, and the hold. To be called last: the note is not the person's. Does
    /// the note say why there is no hold?
    bool finish(Drafted& out) const;

private:
    void must_fit(const Receive& receive) const;
    void say_what_it_is(World& world, const Receive& receive, Drafted& out) const;
    void say_use(World& world, const Receive& receive, Drafted& out) const;
    std::optional<Date> expiry_here(World& world, const Drafted& out) const;
    void compare_with_history(World& world, const Receive& receive, Drafted& out);
    void judge_way(World& world, const Receive& receive, Drafted& out);
    void compare_expiry(World& world, Drafted& out) const;
    void received_before(World& world, const Receive& receive, Drafted& out) const;
    Remark name() const;
    Field held() const;

    bool stated_ = false, whole_ = false;
    std::optional<std::string> no_hold_;
    std::string site_, to_, product_, lot_;
    EntryNumber transfer_ = 0;
    std::int64_t doses_ = 0;
    Instant left_;
    Date expiry_;
    std::vector<std::string> reasons_, to_hold_;
    std::vector<SenderLine> told_;  ///< what the sender says that no figure holds, here as there
    std::string way_;            ///< how long it was, for the note
    std::vector<Remark> why_;    ///< it is held; empty: it is not
};

}  // namespace coldtally::answers
