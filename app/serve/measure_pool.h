// SPDX-License-Identifier: GPL-3.0-or-later
// The workers (measure_worker.h): one a core, each a fresh process for every job, started ahead so
// that a photograph does not wait for a program to load.
#pragma once

#include <QObject>
#include <QProcess>
#include <QTimer>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <vector>

namespace rackside::serve {

class MeasurePool : public QObject {
 public:
  using Done = std::function<void(const nlohmann::json& result)>;
  // `program`: one whose main() asks isWorker().
  MeasurePool(QString program, int workers, int limitSeconds, QObject* parent = nullptr);
  ~MeasurePool() override;

  bool hasRoom() const;
  // `done` comes in any case: a worker that crashed or took too long gives {"ok": false, "say": …}.
  void start(const nlohmann::json& wish, Done done);

 private:
  struct Slot {
    std::unique_ptr<QProcess> process;
    QTimer patience;
    Done done;  // empty: idle
    bool tookTooLong = false;
  };
  void prepare(Slot& slot);
  void finish(Slot& slot);

  QString program_;
  int limitSeconds_;
  bool ending_ = false;
  std::vector<std::unique_ptr<Slot>> slots_;
};

}  // namespace rackside::serve
