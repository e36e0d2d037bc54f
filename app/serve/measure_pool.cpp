// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/measure_pool.h"

#include "app/serve/measure_worker.h"

namespace rackside::serve {

namespace {

constexpr qint64 kLongestResult =
    16'000'000;  // bytes; an outline of a few thousand corners is 1 MB

nlohmann::json failure(const char* words) {
  return {{"ok", false}, {"say", words}};
}

nlohmann::json resultOf(const QByteArray& printed, bool tookTooLong) {
  if (tookTooLong)
    return failure(
        "Measuring took too long and was stopped. Retake the photograph, with fewer "
        "megapixels if the phone lets you choose.");
  const auto result = printed.size() > kLongestResult
                          ? nlohmann::json(nlohmann::json::value_t::discarded)
                          : nlohmann::json::parse(printed.begin(), printed.end(), nullptr, false);
  if (!result.is_object() || !result.contains("ok") || !result["ok"].is_boolean())
    return failure(
        "The photograph brought the measuring to a stop; nothing else was touched. Retake "
        "it.");
  return result;
}

}  // namespace

MeasurePool::MeasurePool(QString program, int workers, int limitSeconds, QObject* parent)
    : QObject(parent), program_(std::move(program)), limitSeconds_(limitSeconds) {
  for (int i = 0; i < workers; ++i) {
    slots_.push_back(std::make_unique<Slot>());
    Slot& slot = *slots_.back();
    slot.patience.setSingleShot(true);
    connect(&slot.patience, &QTimer::timeout, this, [&slot] {
      slot.tookTooLong = true;
      slot.process->kill();
    });
    prepare(slot);
  }
}

MeasurePool::~MeasurePool() {
  ending_ = true;
  for (const auto& slot : slots_) {
    slot->process->disconnect(this);
    slot->process->kill();
    slot->process->waitForFinished(2000);
  }
}

bool MeasurePool::hasRoom() const {
  for (const auto& slot : slots_)
    if (!slot->done) return true;
  return false;
}

void MeasurePool::prepare(Slot& slot) {
  slot.tookTooLong = false;
  slot.process = std::make_unique<QProcess>();
  QProcess& process = *slot.process;
  process.setChildProcessModifier(setWorkerLimits);
  process.setStandardErrorFile(QProcess::nullDevice());
  connect(&process, &QProcess::finished, this, [this, &slot] { finish(slot); });
  connect(&process, &QProcess::errorOccurred, this, [this, &slot](QProcess::ProcessError error) {
    if (error == QProcess::FailedToStart) finish(slot);
  });
  process.start(program_, {QString::fromLatin1(kWorkerWord)});
}

void MeasurePool::start(const nlohmann::json& wish, Done done) {
  for (const auto& slot : slots_) {
    if (slot->done) continue;
    if (slot->process->state() == QProcess::NotRunning) prepare(*slot);
    slot->done = std::move(done);
    slot->process->write(QByteArray::fromStdString(wish.dump()) + '\n');
    slot->process->closeWriteChannel();
    slot->patience.start(limitSeconds_ * 1000);
    return;
  }
}

// A process may not be replaced inside its own signal, so the next one is made a moment later.
void MeasurePool::finish(Slot& slot) {
  if (ending_ || !slot.done) return;
  slot.patience.stop();
  const Done done = std::move(slot.done);
  slot.done = nullptr;
  const auto result = resultOf(slot.process->readAllStandardOutput(), slot.tookTooLong);
  slot.process->disconnect(this);
  slot.process.release()->deleteLater();
  prepare(slot);
  done(result);
}

}  // namespace rackside::serve
