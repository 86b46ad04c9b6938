/* A plugin in plain C, with nothing but the header: counts how often it was asked. */
#include <barmkeep_plugin.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct counter {
    const barmkeep_host* host;
    int asked; /* changed by several threads, so only atomically */
};

static void describe(barmkeep_sink sink, void* context) {
    static const char text[] =
        "{\"name\": \"counter\", \"version\": \"1.0.0\", \"methods\": [{"
        "\"name\": \"counter.ask\", \"access\": \"look\", \"effect\": \"reads\", "
        "\"doc\": \"Counts.\", "
        "\"params\": {\"type\": \"object\", \"properties\": {}, \"additionalProperties\": false}, "
        "\"result\": {\"type\": \"object\", \"properties\": {"
        "\"asked\": {\"type\": \"integer\", \"description\": \"How often it was asked.\"}}, "
        "\"required\": [\"asked\"]}}]}";
    sink(context, text, sizeof text - 1);
}

static void* start(const barmkeep_host* host, const char* settings, size_t settings_length,
                   barmkeep_sink failure, void* failure_context) {
    struct counter* counter;
    (void)settings, (void)settings_length;
    counter = calloc(1, sizeof *counter);
    if (counter == NULL) {
        static const char error[] = "{\"code\": -32603, \"message\": \"Out of memory.\"}";
        failure(failure_context, error, sizeof error - 1);
        return NULL;
    }
    counter->host = host;
    return counter;
}

static void refuse(const barmkeep_host* host, barmkeep_call_number number, const char* message) {
    char text[200];
    const int length =
        snprintf(text, sizeof text, "{\"code\": -32602, \"message\": \"%s\"}", message);
    host->answer(host, number, BARMKEEP_ERROR, text, (size_t)length);
}

static void call(void* state, barmkeep_call_number number, const barmkeep_request* request) {
    struct counter* counter = state;
    char text[60];
    int length;
    /* The host has made sure that the params are an object; this method takes an empty one. */
    if (request->params_length != 2) {
        refuse(counter->host, number, "counter.ask takes no params.");
        return;
    }
    length = snprintf(text, sizeof text, "{\"asked\": %d}",
                      __atomic_add_fetch(&counter->asked, 1, __ATOMIC_SEQ_CST));
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
                                       stop};

const barmkeep_plugin* barmkeep_plugin_entry(void) {
    return &plugin;
}
