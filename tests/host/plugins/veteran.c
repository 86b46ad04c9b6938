/* A plugin as one was written for version 1.0 of the boundary: it answers who asks for what. */
#include "sdk/abi/barmkeep_plugin.h"

#include <stdio.h>
#include <string.h>

static const char description[] =
    "{\"name\": \"veteran\", \"version\": \"1\", \"methods\": [{\"name\": \"veteran.ask\", "
    "\"access\": \"look\", \"effect\": \"reads\", \"doc\": \"Answers.\", \"params\": "
    "{\"type\": \"object\"}, \"result\": {}}]}";

static const barmkeep_host* host;

static void describe(barmkeep_sink sink, void* context) {
    sink(context, description, strlen(description));
}

static void* start(const barmkeep_host* given, const char* settings, size_t settings_length,
                   barmkeep_sink failure, void* failure_context) {
    (void)settings, (void)settings_length, (void)failure, (void)failure_context;
    host = given;
    return &host;
}

static void call(void* self, barmkeep_call_number number, const barmkeep_request* request) {
    char text[100];
    (void)self;
    const int length = snprintf(text, sizeof text, "\"%.*s for %.*s\"", (int)request->method_length,
                                request->method, (int)request->caller_length, request->caller);
    host->answer(host, number, BARMKEEP_RESULT, text, (size_t)length);
}

static void stop(void* self) {
    (void)self;
}

/* Of the size that version 1.0 had: it ended with `stop`. */
static const barmkeep_plugin plugin = {offsetof(barmkeep_plugin, sheet),
                                       BARMKEEP_PLUGIN_MAGIC,
                                       1,
                                       0,
                                       describe,
                                       start,
                                       call,
                                       NULL,
                                       stop,
                                       NULL};

const barmkeep_plugin* barmkeep_plugin_entry(void) {
    return &plugin;
}
