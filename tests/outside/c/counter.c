/* A plugin in plain C, with nothing but the header: counts how often it was asked. */
#include <barmkeep_plugin.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct counter {
    const barmkeep_host* host;
    long asked; /* changed by several threads, so only atomically */
};

static void describe(barmkeep_sink sink, void* context) {
    static const char text[] =
        "{\"name\": \"counter\", \"version\": \"1.0.0\", \"methods\": [{"
        "\"name\": \"counter.ask\", \"access\": \"look\", \"effect\": \"reads\", "
        "\"doc\": \"Counts.\", "
        "\"params\": {\"type\": \"object\", \"properties\": {\"times\": {\"type\": \"integer\", "
        "\"minimum\": 1, \"maximum\": 9, \"description\": \"How often to count it.\"}}, "
        "\"additionalProperties\": false}, "
        "\"result\": {\"type\": \"object\", \"properties\": {"
        "\"asked\": {\"type\": \"integer\", \"description\": \"How often it was asked.\"}}, "
        "\"required\": [\"asked\"]}}], "
        "\"settings\": {\"type\": \"object\", \"properties\": {\"first\": {\"type\": \"integer\", "
        "\"minimum\": 0, \"maximum\": 1000000, \"description\": \"Where to begin.\"}}, "
        "\"additionalProperties\": false}}";
    sink(context, text, sizeof text - 1);
}

/* The whole number of the one member `name`, or `usual` if it is not there.  No more of a reader is
 * needed, for the host has checked the text against the description before it hands it over. */
static long number_in(const char* text, size_t length, const char* name, long usual) {
    char copy[64];
    const char* at;
    if (length >= sizeof copy)
        return usual;
    memcpy(copy, text, length);
    copy[length] = 0;
    at = strstr(copy, name);
    at = at == NULL ? NULL : strchr(at, ':');
    return at == NULL || at[1] == 'n' ? usual : (long)strtod(at + 1, NULL);
}

static void* start(const barmkeep_host* host, const char* settings, size_t settings_length,
                   barmkeep_sink failure, void* failure_context) {
    struct counter* counter = calloc(1, sizeof *counter);
    if (counter == NULL) {
        static const char error[] = "{\"code\": -32603, \"message\": \"Out of memory.\"}";
        failure(failure_context, error, sizeof error - 1);
        return NULL;
    }
    counter->host = host;
    counter->asked = number_in(settings, settings_length, "\"first\"", 0);
    return counter;
}

static void call(void* state, barmkeep_call_number number, const barmkeep_request* request) {
    struct counter* counter = state;
    const long times = number_in(request->params, request->params_length, "\"times\"", 1);
    char text[60];
    const int length = snprintf(text, sizeof text, "{\"asked\": %ld}",
                                __atomic_add_fetch(&counter->asked, times, __ATOMIC_SEQ_CST));
    counter->host->answer(counter->host, number, BARMKEEP_RESULT, text, (size_t)length);
}

static void stop(void* state) {
    free(state);
}

static const barmkeep_plugin plugin = {sizeof(barmkeep_plugin),
                                       BARMKEEP_PLUGIN_MAGIC,
                                       BARMKEEP_ABI_MAJOR,
                                       BARMKEEP_ABI_MINOR,
                                       describe,
                                       start,
                                       call,
                                       NULL, /* wants no events */
                                       stop,
                                       NULL /* makes no sheets */};

const barmkeep_plugin* barmkeep_plugin_entry(void) {
    return &plugin;
}
