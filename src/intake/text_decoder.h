// Plain text: the record is the note, and its id is the path it came from.
#pragma once

#include <memory>

#include "intake/decoder.h"

namespace jointledger {

std::unique_ptr<Decoder> make_text_decoder();

}  // namespace jointledger
