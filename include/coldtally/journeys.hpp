// Journeys: doses that leave in a container: in which order, what it may take, and what became of them on the way.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "coldtally/stock.hpp"

namespace coldtally {

/// What a place's range means for a product that is put there.
enum class Fit {
    suited,     ///< the range lies inside the product's
    allowance,  ///< not so, but inside the band of one of its allowances: time there counts against it
    unsuited,   ///< neither: time there may be out of range
};
std::string_view fit_name(Fit fit) noexcept;

/// What is in a place, in the order in which to move it: what must go, then frozen products, then by the first instant
/// of no more use; what is to be discarded last.
struct MoveListAnswer {
    AnswerHead head;
    std::string place;
    std::optional<std::string> container;  ///< into which it is to go
    /// "16 °C at 2026-03-02 08:05": the last that was read in the place, where that is out of its range; none: it is
    /// in range, or nothing was read.
    std::optional<Remark> out_of_range;
    struct Row {
        HoldingKey holding;
        Doses doses;
        Date expiry;
        LastUse last_use;
        List list = List::keep;
        std::vector<Reason> reasons;
        bool frozen = false;           ///< its product is stored frozen
        std::optional<Fit> fit;        ///< of the container, where one is named
        std::vector<std::string> in_doubt;  ///< as in ListsAnswer
        /// Not to be discarded, the last that was read in the place is out of its product's range, and no allowance
        /// covers a place that is itself in range.
        bool must_go = false;
        std::vector<Remark> notes;  ///< what the list alone does not say of their use; as in ListsAnswer
    };
    std::vector<Row> holdings;
};

/// A whole place, or chosen lots, into a container.
struct PackRequest {
    std::string place, container, by, destination, reason = "emergency";
    std::optional<std::string> at;  ///< as in a draft
    std::vector<std::string> lots;  ///< none: all that is in the place
    /// What to do with doses that the container does not suit; neither: refused where there are any.
    bool take_unsuited = false, leave_unsuited = false;
    std::optional<std::string> place_temperature, container_temperature;  ///< "4.2C", "39F", or in the usual scale
    std::optional<std::string> packed_by, approval, coolant, conditioning, note;
};

/// All that is in a container, counted, into a place.
struct UnpackRequest {
    std::string container, place, by;
    std::optional<std::string> at;
    std::vector<std::pair<std::string, std::int64_t>>
        counts;                       ///< by lot, or "lot,fund,mark" where a lot is there more than once
    bool as_listed = false;           ///< the lots without a count were counted and are as in the book
    std::optional<std::string> mark;  ///< not given: their own; a mark of the journey where they come back from an
                                      ///< off-site clinic, or would join doses that did not travel
    std::optional<std::string> place_temperature, container_temperature, received_by, note;
};

/// A journey of a container, from its last departure at or before the instant asked about.
struct TripAnswer {
    AnswerHead head;
    std::string container, destination, reason;
    std::optional<std::string> packed_by, approval, coolant, conditioning, received_by;
    EntryNumber departure = 0;  ///< its entry
    Instant departed;
    std::optional<Instant> arrived;  ///< none: on the way
    Duration lasted;                 ///< to the arrival, or to the instant asked about
    std::optional<Duration> limit;   ///< as asked, else the programme's, where it states one
    struct Event {
        Instant at;
        Remark what;
    };
    std::vector<Event> events;  ///< in the order of time
    struct Row {
        HoldingKey holding;  ///< in the container
        Doses loaded, given, wasted, sent, unloaded, missing,
            aboard;           ///< sent: returned or transferred; missing may be negative: found
        Instant from, until;  ///< in the container, within the journey
        Exposure exposure;    ///< there and then
        std::vector<Duration> allowance_seconds;
    };
    std::vector<Row> holdings;
};

}  // namespace coldtally
