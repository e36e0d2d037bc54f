// SPDX-License-Identifier: GPL-3.0-or-later
// What the routes do: take photographs, have them measured in the background, keep or drop them,
// look boards up, write marks and ticks onto the rack. Knows nothing of the network. Lives on the
// thread of its rack.
#pragma once

#include <QObject>
#include <map>
#include <memory>

#include "app/serve/answer.h"
#include "app/serve/measure_pool.h"
#include "app/serve/phone_queue.h"
#include "app/serve/served_rack.h"

namespace rackside::serve {

class Desk : public QObject {
 public:
  Desk(ServedRack& rack, PhoneQueue queue, std::unique_ptr<MeasurePool> pool);

  Answer state(const Question& q);   // since=VERSION: {"same": true} when nothing is new
  Answer photo(const Question& q);   // job, number, what, face and words; the body is the picture
  Answer seen(const Question& q);    // job, number: the photograph with the outline; 0: small
  Answer again(const Question& q);   // {job, words}: measured anew, with other words
  Answer keep(const Question& q);    // {job, words}
  Answer drop(const Question& q);    // {job}
  Answer board(const Question& q);   // id
  Answer face(const Question& q);    // board, picture, wide (pixels)
  Answer fields(const Question& q);  // {board, words}
  Answer mark(const Question& q);    // {board, face, kind, x0, y0, x1, y1}
  Answer unmark(const Question& q);  // {board, mark}
  Answer tick(const Question& q);    // {board, cut, made}

  const PhoneQueue& queue() const { return queue_; }
  bool idle() const { return running_.empty(); }

 private:
  void pump();
  void begin(const PhoneJob& job);
  void take(const std::string& id, int photos, const nlohmann::json& result);
  Status keepJob(PhoneJob& job, bool& stale);

  ServedRack& rack_;
  PhoneQueue queue_;
  std::unique_ptr<MeasurePool> pool_;
  std::map<std::string, int> running_;  // id → photographs it is measured from
};

}  // namespace rackside::serve
