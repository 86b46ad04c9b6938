/* The header is plain C11: this file does nothing but include it, as the only thing. */
#include "sdk/abi/barmkeep_plugin.h"

/* A descriptor can be a constant, and its first four members stand where every version looks. */
static const barmkeep_plugin example = {sizeof(barmkeep_plugin),
                                        BARMKEEP_PLUGIN_MAGIC,
                                        BARMKEEP_ABI_MAJOR,
                                        BARMKEEP_ABI_MINOR,
                                        0,
                                        0,
                                        0,
                                        0,
                                        0,
                                        0};

_Static_assert(offsetof(barmkeep_plugin, size) == 0, "the size comes first");
_Static_assert(offsetof(barmkeep_plugin, magic) == 4, "then the magic number");
_Static_assert(offsetof(barmkeep_plugin, abi_major) == 8, "then the version");
_Static_assert(offsetof(barmkeep_plugin, abi_minor) == 12, "in two parts");
_Static_assert(offsetof(barmkeep_host, size) == 0, "the size comes first");
_Static_assert(offsetof(barmkeep_request, size) == 0, "the size comes first");

const barmkeep_plugin* descriptor_written_in_c(void);
const barmkeep_plugin* descriptor_written_in_c(void) {
    return &example;
}
