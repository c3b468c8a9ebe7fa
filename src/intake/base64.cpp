#include "intake/base64.h"

#include <nettle/base64.h>

namespace jointledger {

bool from_base64(std::string_view text, std::string& out) {
  base64_decode_ctx context;
  base64_decode_init(&context);
  out.resize(BASE64_DECODE_LENGTH(text.size()));
  std::size_t size = 0;
  const bool good =
      base64_decode_update(&context, &size, reinterpret_cast<uint8_t*>(out.data()), text.size(), text.data()) == 1 &&
      base64_decode_final(&context) == 1;
  out.resize(good ? size : 0);
  return good;
}

}  // namespace jointledger
