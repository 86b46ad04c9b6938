#compdef barm
# Completion of barm for zsh: barm itself knows what may come next.
_barm() {
    local line
    local -a candidates docs
    while IFS= read -r line; do
        candidates+=("${line%%$'\t'*}")
        if [[ -n ${line#*$'\t'} ]]; then
            docs+=("${line%%$'\t'*}  -- ${line#*$'\t'}")
        else
            docs+=("${line%%$'\t'*}")
        fi
    # PREFIX is the word at the cursor, without a quote that it was begun with.
    done < <(barm complete -- "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)
    compadd -l -d docs -a candidates
}
_barm "$@"
