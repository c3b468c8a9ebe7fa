// What part of an expectation a remark earns that falls short of it.
//
// The one place for these figures. They are a convention; no study stands behind them. They are chosen so that a
// further remark never scores less, save one that says that something was not done or is found wanting here. Two shares
// need no figure, being counted: with one of two sides documented the expectation earns half, and with some of the
// motions (or structures) named it earns their share.
#pragma once

namespace jointledger {

struct PartialCredit {
  double none_named = 0.25;  ///< motion with a result, none of the asked motions (or structures) named: the least share
  double no_result = 0.25;   ///< examined, with no word on what was found
  double limb_only = 0.25;   ///< this component, but only of the limb or spine as a whole
  double body_only = 0.1;    ///< this component, but only of the whole body
  double unspecified = 0.0;  ///< "left hip: normal": names no component, so nobody knows what was examined
  double deferred = 0.0;     ///< the note says that it was not done
};
inline constexpr PartialCredit kPartialCredit;

}  // namespace jointledger
