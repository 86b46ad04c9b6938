#include "tests/ledger/faulty_disk.hpp"

#include <algorithm>
#include <cerrno>
#include <new>

namespace barmkeep::ledger {
namespace {

/// SQLite hands out the memory; the system's file follows right behind.
struct File : sqlite3_file {
    FaultyDisk* disk = nullptr;
    bool is_log = false;
    sqlite3_file* real = nullptr;
};

File& of(sqlite3_file* file) {
    return *static_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
    return of(file).real;
}

/// What SQLite makes of the system's EROFS.
int refuse(int code) {
    errno = EROFS;
    return code;
}

int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 at) {
    if (of(file).disk->is_read_only)
        return refuse(SQLITE_IOERR_WRITE);
    if (auto* disk = of(file).disk; of(file).is_log) {
        if (disk->writes_fail)
            return SQLITE_FULL;
        disk->log_bytes_now = std::max<std::int64_t>(disk->log_bytes_now, at + count);
    }
    return real(file)->pMethods->xWrite(real(file), bytes, count, at);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
    if (of(file).disk->is_read_only)
        return refuse(SQLITE_IOERR_TRUNCATE);
    return real(file)->pMethods->xTruncate(real(file), size);
}

int sync(sqlite3_file* file, int flags) {
    if (auto* disk = of(file).disk; of(file).is_log) {
        if (disk->syncs_fail)
            return SQLITE_IOERR_FSYNC;
        disk->log_bytes = disk->log_bytes_now.load();
    }
    return real(file)->pMethods->xSync(real(file), flags);
}

int lock_index(sqlite3_file* file, int offset, int count, int flags) {
    if (of(file).disk->locks_fail && (flags & SQLITE_SHM_LOCK) != 0)
        return SQLITE_IOERR_SHMLOCK;
    return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}

const sqlite3_io_methods methods{
    2, // no memory map
    [](sqlite3_file* f) { return real(f)->pMethods->xClose(real(f)); },
    [](sqlite3_file* f, void* to, int n, sqlite3_int64 at) {
        return real(f)->pMethods->xRead(real(f), to, n, at);
    },
    write,
    truncate,
    sync,
    [](sqlite3_file* f, sqlite3_int64* n) { return real(f)->pMethods->xFileSize(real(f), n); },
    [](sqlite3_file* f, int l) { return real(f)->pMethods->xLock(real(f), l); },
    [](sqlite3_file* f, int l) { return real(f)->pMethods->xUnlock(real(f), l); },
    [](sqlite3_file* f, int* r) { return real(f)->pMethods->xCheckReservedLock(real(f), r); },
    [](sqlite3_file* f, int o, void* a) { return real(f)->pMethods->xFileControl(real(f), o, a); },
    [](sqlite3_file* f) { return real(f)->pMethods->xSectorSize(real(f)); },
    [](sqlite3_file* f) { return real(f)->pMethods->xDeviceCharacteristics(real(f)); },
    [](sqlite3_file* f, int p, int n, int e, void volatile** m) {
        return real(f)->pMethods->xShmMap(real(f), p, n, e, m);
    },
    lock_index,
    [](sqlite3_file* f) { real(f)->pMethods->xShmBarrier(real(f)); },
    [](sqlite3_file* f, int d) { return real(f)->pMethods->xShmUnmap(real(f), d); },
    nullptr,
    nullptr};

/// What the VFS needs to know, behind its pAppData.
struct Behind {
    FaultyDisk* disk;
    sqlite3_vfs* system;
};

int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* out) {
    const auto* behind = static_cast<const Behind*>(vfs->pAppData);
    File* made = new (file) File{};
    made->real = reinterpret_cast<sqlite3_file*>(made + 1);
    made->disk = behind->disk;
    made->is_log = (flags & SQLITE_OPEN_WAL) != 0;
    // The system's own VFS tries again for reading only when it may not write.
    if (behind->disk->is_read_only)
        flags = (flags & ~(SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)) | SQLITE_OPEN_READONLY;
    const int outcome = behind->system->xOpen(behind->system, name, made->real, flags, out);
    file->pMethods = made->real->pMethods != nullptr ? &methods : nullptr;
    return outcome;
}

} // namespace

FaultyDisk::FaultyDisk()
    : system_{sqlite3_vfs_find(nullptr)}, vfs_{std::make_unique<sqlite3_vfs>(*system_)} {
    static const std::string registered = name();
    vfs_->zName = registered.c_str();
    vfs_->szOsFile = static_cast<int>(sizeof(File)) + system_->szOsFile;
    vfs_->pNext = nullptr;
    vfs_->pAppData = new Behind{this, system_};
    vfs_->xOpen = open;
    sqlite3_vfs_register(vfs_.get(), 0);
}

FaultyDisk::~FaultyDisk() {
    sqlite3_vfs_unregister(vfs_.get());
    delete static_cast<Behind*>(vfs_->pAppData);
}

} // namespace barmkeep::ledger
