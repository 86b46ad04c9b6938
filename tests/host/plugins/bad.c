/* Plugins that must not get past the host's checks, one a definition. */
#include "sdk/abi/barmkeep_plugin.h"

#include <string.h>

#if defined(BAD_DESCRIBE_HANGS) || defined(BAD_ENTRY_HANGS) || defined(BAD_INITIALISER_HANGS)
/* The program that loads us lets us stand still here, before we have a host to ask. */
extern void host_test_stand_still(void);
#endif

#if defined(BAD_DESCRIPTION)
static const char description[] = "I am a plugin, believe me";
#elif defined(BAD_SCHEMA)
static const char description[] =
    "{\"name\": \"schemaless\", \"version\": \"1\", \"methods\": [{\"name\": \"schemaless.go\", "
    "\"access\": \"look\", \"effect\": \"reads\", \"doc\": \"Goes.\", \"params\": "
    "{\"type\": \"object\", \"properties\": 5}, \"result\": {}}]}";
#elif defined(BAD_START)
static const char description[] = "{\"name\": \"refusing\", \"version\": \"1\"}";
#elif defined(BAD_START_MUTE)
static const char description[] = "{\"name\": \"mute\", \"version\": \"1\"}";
#elif defined(BAD_DAWDLING)
static const char description[] = "{\"name\": \"dawdling\", \"version\": \"1\"}";

static void ignore(void* context, const char* text, size_t length) {
    (void)context, (void)text, (void)length;
}
#elif defined(BAD_DESCRIBE_HANGS)
static const char description[] = "{\"name\": \"musing\", \"version\": \"1\"}";
#elif defined(BAD_ENTRY_HANGS)
static const char description[] = "{\"name\": \"halting\", \"version\": \"1\"}";
#elif defined(BAD_INITIALISER_HANGS)
static const char description[] = "{\"name\": \"asleep\", \"version\": \"1\"}";

__attribute__((constructor)) static void initialise(void) {
    host_test_stand_still();
}
#elif defined(BAD_GREEDY)
/* Its second method is one of the core's. */
static const char description[] =
    "{\"name\": \"greedy\", \"version\": \"1\", \"methods\": ["
    "{\"name\": \"greedy.go\", \"access\": \"look\", \"effect\": \"reads\", \"doc\": \"Goes.\", "
    "\"params\": {\"type\": \"object\"}, \"result\": {}}, "
    "{\"name\": \"test.gate\", \"access\": \"look\", \"effect\": \"reads\", \"doc\": \"Takes.\", "
    "\"params\": {\"type\": \"object\"}, \"result\": {}}]}";
#else
static const char description[] = "{\"name\": \"bad\", \"version\": \"1\"}";
#endif

static int state;
static void call(void* self, barmkeep_call_number number, const barmkeep_request* request);

static void describe(barmkeep_sink sink, void* context) {
    (void)call, (void)state; /* not every variant of this file uses them otherwise */
#if defined(BAD_DESCRIBE_HANGS)
    host_test_stand_still();
#endif
    sink(context, description, strlen(description));
}

static void* start(const barmkeep_host* host, const char* settings, size_t settings_length,
                   barmkeep_sink failure, void* failure_context) {
    (void)host, (void)settings, (void)settings_length, (void)failure, (void)failure_context;
#if defined(BAD_START)
    static const char error[] = "{\"code\": 3, \"message\": \"Not today.\", \"data\": {\"faults\": "
                                "[{\"reason\": \"moody\", \"message\": \"Not today.\", "
                                "\"pointer\": \"\", \"hint\": \"Come back tomorrow.\"}]}}";
    failure(failure_context, error, strlen(error));
    return NULL;
#elif defined(BAD_START_MUTE)
    return NULL;
#elif defined(BAD_DAWDLING)
    host->call(host, BARMKEEP_OWN_ACCORD, "test.gate", 9, "{}", 2, ignore, NULL);
    return &state;
#else
    return &state;
#endif
}

static void call(void* self, barmkeep_call_number number, const barmkeep_request* request) {
    (void)self, (void)number, (void)request;
}

static void event(void* self, const char* text, size_t length) {
    (void)self, (void)text, (void)length;
}

static void stop(void* self) {
    (void)self;
}

static const barmkeep_plugin plugin = {
#if defined(BAD_SIZE)
    offsetof(barmkeep_plugin, sheet) - sizeof(void*),
#else
    sizeof(barmkeep_plugin),
#endif
#if defined(BAD_MAGIC)
    0x0badcafe,
#else
    BARMKEEP_PLUGIN_MAGIC,
#endif
#if defined(BAD_NEWER_MAJOR)
    BARMKEEP_ABI_MAJOR + 1,
#elif defined(BAD_OLDER_MAJOR)
    BARMKEEP_ABI_MAJOR - 1,
#else
    BARMKEEP_ABI_MAJOR,
#endif
#if defined(BAD_MINOR)
    BARMKEEP_ABI_MINOR + 1,
#else
    BARMKEEP_ABI_MINOR,
#endif
    describe,
    start,
#if defined(BAD_LACKING)
    NULL,
#else
    call,
#endif
    event,
    stop,
    NULL};

#if defined(BAD_MISSING)
const barmkeep_plugin* some_other_function(void);
const barmkeep_plugin* some_other_function(void) {
    return &plugin;
}
#elif defined(BAD_NOTHING)
const barmkeep_plugin* barmkeep_plugin_entry(void) {
    return plugin.size == 0 ? &plugin : NULL;
}
#else
const barmkeep_plugin* barmkeep_plugin_entry(void) {
#if defined(BAD_ENTRY_HANGS)
    host_test_stand_still();
#endif
    return &plugin;
}
#endif
