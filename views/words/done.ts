// What the next page says once an act is done: one line.
import type { Done, plainDone } from '../../app/terms/done.ts'
import { counted } from '../figures.ts'

export function doneWords(done: Done): string {
  return done.code === 'results-recorded' ? `${counted(done.count, 'result')} recorded.` : plainWords[done.code]
}

const plainWords: Record<(typeof plainDone)[number], string> = {
  'account-activated': 'Account activated again.',
  'account-added': 'Account added.',
  'account-deactivated': 'Account deactivated: its sessions have ended.',
  'cord-corrected': 'Correction saved. The first entry stays readable.',
  'cord-ruled': 'Ruling recorded.',
  'decision-signed': 'Decision signed.',
  'draw-made': 'Cords drawn at random.',
  'item-changed': 'Item changed. Lots under way keep the terms they have.',
  'item-defined': 'Item defined.',
  'lot-announced': 'Lot announced.',
  'lot-closed': 'Lot closed.',
  'lot-corrected': 'Announcement corrected.',
  'lot-received': 'Receipt recorded.',
  'lot-recounted': 'Recount recorded. The next reserve cord takes the empty place.',
  'lot-withdrawn': 'Lot withdrawn.',
  'password-changed': 'Password changed.',
  'plan-frozen': 'Plan frozen.',
  'role-changed': 'Role changed.',
  'rule-chosen': 'Rule for the plan recorded.',
  'series-noted': 'Note recorded.',
  'signed-out': 'You are signed out.',
  'signed-out-elsewhere': 'All your other sessions are signed out.',
  'supplier-registered': 'Supplier registered.',
}
