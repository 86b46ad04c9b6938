# Completion of barm for bash: barm itself knows what may come next.
_barm() {
    local line candidate word after_equals=""
    local typed=${COMP_WORDS[COMP_CWORD]}
    local -a words=()
    # A word that was begun with a quote is asked for without it.
    local quote=""
    if [[ $typed == [\"\']* ]]; then
        quote=${typed:0:1}
        typed=${typed:1}
    fi
    typed=${typed//\\ / }
    # Bash takes an option and its value apart at the equals sign.
    for word in "${COMP_WORDS[@]:1:COMP_CWORD-1}" "$typed"; do
        if [[ $word == = && ${#words[@]} -gt 0 && ${words[-1]} == --* ]]; then
            words[-1]+="="
            after_equals=yes
        elif [[ -n $after_equals ]]; then
            words[-1]+=$word
            after_equals=""
        else
            words+=("$word")
        fi
    done
    local taken_off=""
    [[ ${words[-1]} == --*=* && $COMP_WORDBREAKS == *=* ]] && taken_off=${words[-1]%%=*}=
    COMPREPLY=()
    while IFS= read -r line; do
        candidate=${line%%$'\t'*}
        candidate=${candidate#"$taken_off"}
        if [[ -n $quote ]]; then
            COMPREPLY+=("$quote$candidate$quote")
        else
            COMPREPLY+=("$(printf '%q' "$candidate")")
        fi
    done < <(barm complete -- "${words[@]}" 2>/dev/null)
}
complete -o nosort -F _barm barm
