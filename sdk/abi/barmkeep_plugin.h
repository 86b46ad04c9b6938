/* The boundary between Barmkeep and a plugin, in plain C.
 *
 * A plugin is a shared object NAME.so that exports one function, `barmkeep_plugin_entry`.  Text
 * crosses the boundary as JSON in UTF-8 with its length, and nothing else does: no object and no
 * exception of any language.  So a plugin may be built by another compiler, against other
 * libraries, or in another language, and a host may as well carry the calls to another process.
 *
 * Rules that hold for all of it:
 *  - A text is a pointer and a length in bytes; it need not end in a zero byte.  It lives until the
 *    function it was given to returns; whoever wants it longer copies it.  So memory is always
 *    freed by the side that made it, and no ownership crosses.
 *  - Every struct begins with its size and grows only at its end.  Before reading a member that a
 *    later minor version added, look whether the size reaches so far.
 *  - The host loads a plugin of the same major version and of its own or an older minor version.
 *  - No exception and no longjmp may cross; no function here may be given a null pointer but
 *    where that is said (a text of length 0 may have a null pointer).
 */
#ifndef BARMKEEP_PLUGIN_H
#define BARMKEEP_PLUGIN_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define BARMKEEP_PLUGIN_MAGIC UINT32_C(0x6d726162) /* "barm" read as little-endian */
#define BARMKEEP_ABI_MAJOR UINT32_C(1)
#define BARMKEEP_ABI_MINOR UINT32_C(1)

/* No text that crosses is longer; a longer one is invalid. */
#define BARMKEEP_TEXT_LENGTH_MAX ((size_t)16 * 1024 * 1024)

/* The name of the one exported function, for the side that looks it up. */
#define BARMKEEP_PLUGIN_ENTRY_NAME "barmkeep_plugin_entry"

/* Put before the definition of the entry, so that it is seen though all else is hidden. */
#if defined(__GNUC__)
#define BARMKEEP_PLUGIN_EXPORT __attribute__((visibility("default")))
#else
#define BARMKEEP_PLUGIN_EXPORT
#endif

/* A call under way, by number.  Numbers are never used twice, so a late word about a call that
 * has ended is noticed and dropped.  0 stands for the plugin itself: what it does of its own
 * accord, at its start, on an event or on a thread of its own. */
typedef uint64_t barmkeep_call_number;
#define BARMKEEP_OWN_ACCORD ((barmkeep_call_number)0)

/* Takes a text.  It is called at most once, before the function it was given to returns, on the
 * same thread. */
typedef void (*barmkeep_sink)(void* context, const char* text, size_t length);

/* How a call ended. */
typedef int32_t barmkeep_ending;
#define BARMKEEP_RESULT INT32_C(0) /* the text is the result */
#define BARMKEEP_ERROR                                                                             \
    INT32_C(1) /* the text is an error object as in JSON-RPC 2.0: code, message, data */

typedef int32_t barmkeep_log_level;
#define BARMKEEP_LOG_DEBUG INT32_C(0)
#define BARMKEEP_LOG_INFO INT32_C(1)
#define BARMKEEP_LOG_WARNING INT32_C(2)
#define BARMKEEP_LOG_ERROR INT32_C(3)

/* What the host does for a plugin.  The table and all it points to live from before `start` until
 * after `stop`.  Every function may be called from any thread between the beginning of `start`
 * and the end of `stop`; none throws. */
typedef struct barmkeep_host {
    uint32_t size; /* of this struct, as the host knows it */
    uint32_t abi_major;
    uint32_t abi_minor;
    void* context; /* the host's own; not for the plugin */

    /* Answers a call, with a result (any JSON) or an error object.  Exactly once for each call,
     * before the plugin's `call` returns, from whatever thread. */
    void (*answer)(const struct barmkeep_host* host, barmkeep_call_number call,
                   barmkeep_ending ending, const char* text, size_t length);

    /* Calls any method, of the core or of a plugin, and waits for its outcome, which goes to `sink`
     * on this thread before the function returns.  `within` is the call on whose behalf it is made:
     * its caller, its arrival, its cancellation and its depth go on to the called method.  Params
     * are a JSON object or array, or nothing; the request key of a writing method is their member
     * "key".  When the key begins with the key of the outer call and a slash, the ledger takes the
     * two for one request (see the plugin guide, "Writing once").  A plugin may call itself;
     * sixteen plugins deep it ends. */
    barmkeep_ending (*call)(const struct barmkeep_host* host, barmkeep_call_number within,
                            const char* method, size_t method_length, const char* params,
                            size_t params_length, barmkeep_sink sink, void* sink_context);

    /* Not 0 once the outcome of a call is no longer wanted: cancelled by the caller, or too late.
     * Long work asks now and then, and answers with an error of code -32000. */
    int (*cancelled)(const struct barmkeep_host* host, barmkeep_call_number call);

    /* Reports to the caller how far a long call is: `done` of `total` (0 if that is unknown), and
     * what is being done. */
    void (*progress)(const struct barmkeep_host* host, barmkeep_call_number call, double done,
                     double total, const char* message, size_t message_length);

    /* Milliseconds since 1970-01-01T00:00Z on the host's clock.  It may be a clock set by hand:
     * a plugin asks no other for the time. */
    int64_t (*now)(const struct barmkeep_host* host);

    /* One line for the log; line breaks in it are taken out. */
    void (*log)(const struct barmkeep_host* host, barmkeep_log_level level, const char* text,
                size_t length);
} barmkeep_host;

/* A request as it reaches the plugin. */
typedef struct barmkeep_request {
    uint32_t size; /* of this struct, as the host knows it */
    const char* method;
    size_t method_length;
    const char* params; /* a JSON object that fits the method's schema, without the request key */
    size_t params_length;
    const char* caller; /* the person or plugin that asks, for display */
    size_t caller_length;
    const char* key; /* the request key; of length 0 if none was given */
    size_t key_length;
    /* Since version 1.1; look at `size` before reading it.  When the request arrived, in
     * milliseconds since 1970-01-01T00:00Z on the host's clock: what it records happened then,
     * however long it waited for a thread. */
    int64_t arrived;
} barmkeep_request;

/* The plugin.  The struct lives, unchanged, as long as the shared object is mapped, and that is to
 * the end of the process. */
typedef struct barmkeep_plugin {
    uint32_t size;      /* sizeof(barmkeep_plugin) */
    uint32_t magic;     /* BARMKEEP_PLUGIN_MAGIC */
    uint32_t abi_major; /* BARMKEEP_ABI_MAJOR */
    uint32_t abi_minor; /* BARMKEEP_ABI_MINOR */

    /* Hands one JSON object to the sink:
     *     {"name": "canning",           small letters and _, equal to the file's name without .so
     *      "version": "0.1.0",
     *      "methods": [...],            see the plugin guide; none of them need be there
     *      "events": ["lot.", ...],     beginnings of the topics wanted
     *      "settings": {...}}           JSON Schema of the settings, draft 07
     * From one of the host's threads, before `start`; must do nothing else. */
    void (*describe)(barmkeep_sink sink, void* context);

    /* Begins the work and returns the plugin's own state, which the host hands back with every
     * later call.  On failure returns null after giving an error object to `failure`.  `settings`
     * is a JSON object that fits the schema in the description.  Once, from one of the host's
     * threads, and again after a `stop`.  The plugin's methods can be called only when `start` has
     * returned. */
    void* (*start)(const barmkeep_host* host, const char* settings, size_t settings_length,
                   barmkeep_sink failure, void* failure_context);

    /* Answers one request, through host->answer, before it returns.  From any of the host's
     * threads, several at once; and, inside a `host->call`, from the very thread that made it.
     * It never sleeps or waits for something to happen: the threads are few and shared. */
    void (*call)(void* state, barmkeep_call_number call, const barmkeep_request* request);

    /* Takes note of one event: {"sequence", "at", "topic", "about"}.  From any of the host's
     * threads, one event at a time and in order, but beside calls.  May be null if no events are
     * wanted. */
    void (*event)(void* state, const char* event, size_t length);

    /* Ends the work and frees the state.  Threads that the plugin began have ended when it
     * returns.  Once for each successful `start`, when no call and no event is under way. */
    void (*stop)(void* state);

    /* Since version 1.1; look at `size` before reading it.  Makes the sheet that a person reads of
     * an answer: hands its JSON text (see the plugin guide, "Sheets") to the sink, or nothing if
     * there is none.  `params` are those of the request, `result` is what the plugin answered.  It
     * has no state and may call no function of the host; it needs no `start`.  From any of the
     * host's threads, several at once; it returns within a second.  May be null: then the host
     * shows answers in a general form.  The methods that have a sheet say so in their description
     * ("has_sheet": true). */
    void (*sheet)(const char* method, size_t method_length, const char* params,
                  size_t params_length, const char* result, size_t result_length,
                  barmkeep_sink sink, void* context);
} barmkeep_plugin;

/* What a plugin exports, under this name and with C linkage.  Does nothing but return the
 * address of the description, which is the same every time.  From one of the host's threads. */
BARMKEEP_PLUGIN_EXPORT const barmkeep_plugin* barmkeep_plugin_entry(void);

#ifdef __cplusplus
}
#endif

#endif
