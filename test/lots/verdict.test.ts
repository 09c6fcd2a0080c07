// The plan's word on a lot.
import { expect, test } from 'vitest'
import { verdictOf } from '../../app/lots/decision/verdict.ts'

const single = { kind: 'single', sampleSize: 50, acceptanceNumber: 1 } as const
const zero = { kind: 'zero-acceptance', sampleSize: 48, acceptanceNumber: 0 } as const
const every = { kind: 'every-cord', sampleSize: 20, acceptanceNumber: 20 } as const

test.each([
  { plan: single, recorded: 0, found: 0, says: undefined },
  { plan: single, recorded: 49, found: 1, says: undefined },
  { plan: single, recorded: 50, found: 1, says: 'accept' },
  { plan: single, recorded: 12, found: 2, says: 'reject' },
  { plan: single, recorded: 50, found: 2, says: 'reject' },
  { plan: zero, recorded: 1, found: 1, says: 'reject' },
  { plan: zero, recorded: 48, found: 0, says: 'accept' },
  { plan: every, recorded: 19, found: 19, says: undefined },
  { plan: every, recorded: 20, found: 20, says: 'accept' },
])(
  '$plan.kind $plan.sampleSize/$plan.acceptanceNumber after $recorded with $found found: $says (definition of a single plan, ISO 3534-2)',
  ({ plan, recorded, found, says }) => {
    expect(verdictOf(plan, { recorded, found })).toBe(says)
  },
)
