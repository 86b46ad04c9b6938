# Completion of barm for bash: barm itself knows what may come next.
_barm() {
    local line candidate
    local -a words=("${COMP_WORDS[@]:1:COMP_CWORD}")
    local quote=""
    # A word that was begun with a quote is asked for without it.
    if [[ ${words[-1]} == [\"\']* ]]; then
        quote=${words[-1]:0:1}
        words[-1]=${words[-1]:1}
    fi
    words[-1]=${words[-1]//\\ / }
    COMPREPLY=()
    while IFS= read -r line; do
        candidate=${line%%$'\t'*}
        if [[ -n $quote ]]; then
            COMPREPLY+=("$quote$candidate$quote")
        else
            COMPREPLY+=("$(printf '%q' "$candidate")")
        fi
    done < <(barm complete -- "${words[@]}" 2>/dev/null)
}
complete -o nosort -F _barm barm
