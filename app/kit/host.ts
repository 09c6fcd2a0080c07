// Names under which a machine speaks to itself.

/** Whether a Host header, or a setting, names this very machine: a page elsewhere whose name was bent to this address has another name. */
export function loopback(host: string | undefined): boolean {
  return /^(127(\.\d{1,3}){3}|localhost|\[::1\]|::1)(:\d{1,5})?$/i.test(host ?? '')
}
