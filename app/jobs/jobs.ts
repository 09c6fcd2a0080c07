// The list of background jobs: one row each.
import { recount } from '../history/recount.ts'
import { forgetOldAttempts } from '../people/forget.ts'
import { forgetOldKeys } from '../people/once.ts'
import { forgetEndedSessions } from '../people/sessions/session.ts'
import type { Job } from './run.ts'

const MINUTE = 60_000

export const jobs: readonly Job[] = [
  { name: 'forget-old-form-keys', every: 10 * MINUTE, work: forgetOldKeys },
  { name: 'forget-ended-sessions', every: 10 * MINUTE, work: forgetEndedSessions },
  { name: 'recount', every: 6 * 60 * MINUTE, work: recount() },
  { name: 'forget-old-attempts', every: 10 * MINUTE, work: forgetOldAttempts },
]
