// A position that a page hands on in an address or a form.

/** 0, before the first cord, where there is none or it cannot be one. */
export function positionFrom(sent: string | undefined): number {
  return sent !== undefined && /^\d{1,7}$/.test(sent) ? Number(sent) : 0
}
