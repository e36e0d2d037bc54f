// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/jpeg.h"

#include <csetjmp>
#include <cstdio>
// After <cstdio>, whose FILE they use.
#include <jerror.h>
#include <jpeglib.h>

namespace rackside {
namespace {

// Writers may leave a little padding before a marker; more is a stretch that nothing could be made
// of.
constexpr int kPaddingBytes = 64;

struct Faults {
  jpeg_error_mgr base;  // first, so that libjpeg's pointer to it is one to this
  std::jmp_buf out;
  bool lost = false;
};

Faults& faultsOf(j_common_ptr jpeg) {
  return *reinterpret_cast<Faults*>(jpeg->err);
}

bool meansLoss(const jpeg_error_mgr& said) {
  switch (said.msg_code) {
    case JWRN_HIT_MARKER:
    case JWRN_HUFF_BAD_CODE:
    case JWRN_JPEG_EOF:
    case JWRN_MUST_RESYNC:
    case JWRN_NOT_SEQUENTIAL:
      return true;
    case JWRN_EXTRANEOUS_DATA:
      return said.msg_parm.i[0] > kPaddingBytes;
    default:
      return false;
  }
}

void setUp(Faults& faults) {
  jpeg_std_error(&faults.base);
  faults.base.error_exit = [](j_common_ptr jpeg) { std::longjmp(faultsOf(jpeg).out, 1); };
  faults.base.emit_message = [](j_common_ptr jpeg, int level) {
    if (level < 0 && meansLoss(*jpeg->err)) faultsOf(jpeg).lost = true;
  };
}

// Nothing here has a destructor, for a fault jumps out of it. False: given up.
bool decodeInto(jpeg_decompress_struct& jpeg, Faults& faults, const Bytes& bytes, cv::Mat& bgr) {
  if (setjmp(faults.out) != 0) return false;
  jpeg_mem_src(&jpeg, bytes.data(), static_cast<unsigned long>(bytes.size()));
  jpeg_read_header(&jpeg, TRUE);
  if (jpeg.num_components == 4) return true;
  jpeg.out_color_space = JCS_EXT_BGR;
  jpeg_start_decompress(&jpeg);
  bgr.create(int(jpeg.output_height), int(jpeg.output_width), CV_8UC3);
  while (jpeg.output_scanline < jpeg.output_height) {
    JSAMPROW row = bgr.ptr<uint8_t>(int(jpeg.output_scanline));
    jpeg_read_scanlines(&jpeg, &row, 1);
  }
  jpeg_finish_decompress(&jpeg);
  return true;
}

}  // namespace

Result<cv::Mat> decodeJpeg(const Bytes& bytes) {
  cv::Mat bgr;
  Faults faults{};
  setUp(faults);
  jpeg_decompress_struct jpeg{};
  jpeg.err = &faults.base;
  jpeg_create_decompress(&jpeg);
  const bool decoded = decodeInto(jpeg, faults, bytes, bgr);
  jpeg_destroy_decompress(&jpeg);
  if (!decoded) return Error{"is damaged and cannot be decoded; copy it again from the camera"};
  if (faults.lost)
    return Error{
        "is damaged: part of the picture is lost, and what follows it may be out of place; copy it "
        "again from the camera, or take it once more"};
  return bgr;
}

}  // namespace rackside
