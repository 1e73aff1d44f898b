// Where offers can be put in a host, and the rebuild with them put in.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "fit/one.hpp"
#include "fit/ways_out.hpp"

namespace benchgraft::fit {

/// One place of the host and every job some build of it does there.
struct WayPlace {
  std::string name;
  std::vector<std::string> roles;
};

/// A set of offers put in: (index of the place, index of the offer), sorted by place.
using WayAnswer = std::pair<std::size_t, std::size_t>;
using PutIn = std::vector<WayAnswer>;

class WayPlaces {
 public:
  WayPlaces(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
            const Host& host, const std::vector<Offer>& offers);

  /// Every single offer that would do a job named by `reason`, or sits beside one.
  [[nodiscard]] std::vector<WayAnswer> answers_to(const Reason& reason) const;
  /// True for a part like the one that sits there: a like-for-like exchange settles nothing that
  /// follows from the types.
  [[nodiscard]] bool changes_nothing(const Judgement& judged, const WayAnswer& answer) const;
  /// `rebuild` with `put_in`: each replaces what was put in there before.
  [[nodiscard]] catalogue::RebuildText with(const PutIn& put_in) const;
  /// No judgement of `put_in`, or of more, can come to less: offers, and minutes to change them.
  [[nodiscard]] double least_cost(const PutIn& put_in, double minor_per_minute) const;
  [[nodiscard]] const WayPlace& place(std::size_t index) const { return places_[index]; }
  /// Printed number of what goes in, or all it may be.
  [[nodiscard]] std::string type_of(const Offer& offer) const;

 private:
  void add_places();
  void widen_by_variants();
  void note_offers();
  [[nodiscard]] bool is_as_built(std::size_t place) const;
  [[nodiscard]] std::size_t index_of(const std::string& name) const;
  [[nodiscard]] double least_handling(const Offer& offer) const;
  [[nodiscard]] double handling(const std::vector<std::string>& roles) const;

  const catalogue::Catalogue& known_;
  const catalogue::RebuildText& rebuild_;
  const Host& host_;
  const std::vector<Offer>& offers_;
  std::vector<WayPlace> places_;
  std::vector<std::vector<std::string>> roles_of_;  ///< by offer
};

}  // namespace benchgraft::fit
