// What a line of the audit tells besides who did what: its facts in words, nothing of the program's own.
import { whole } from '../figures.ts'

/** Digests, keys and numbers of the program; a reader has no use for them here, and the evidence has its own. */
const leftOut = /sha256|digest|key$|^version$|network|token/i

/** Of a frozen plan the lot's own page has all terms; here stands what was chosen. */
const told: Partial<Record<string, readonly string[]>> = {
  'lot.planned': ['kind', 'stages', 'lotSize', 'tooMany', 'weakerReason', 'reason'],
}

export function Detail({ of, action }: { of: unknown; action: string }) {
  if (typeof of !== 'object' || of === null) return null
  const names = told[action]
  const said = Object.entries(of).flatMap(([name, value]) => {
    const words = leftOut.test(name) || names?.includes(name) === false ? undefined : shown(value)
    return words === undefined ? [] : [`${spaced(name)}: ${words}`]
  })
  return said.length === 0 ? null : <span class="said">{said.join('; ')}</span>
}

function shown(value: unknown): string | undefined {
  switch (typeof value) {
    case 'string':
      return value === '' ? undefined : value
    case 'number':
      return Number.isInteger(value) ? whole(value) : String(value)
    case 'boolean':
      return value ? 'yes' : 'no'
    default:
      return Array.isArray(value) ? stagesIn(value) : undefined
  }
}

/** The stages of a plan as people write them, 50/1; of other lists only how many they hold. */
function stagesIn(list: unknown[]): string | undefined {
  const stages = list.flatMap((each) =>
    typeof each === 'object' && each !== null && 'sampleSize' in each && 'acceptanceNumber' in each
      ? [`${each.sampleSize}/${each.acceptanceNumber}`]
      : [],
  )
  return stages.length === list.length && list.length > 0 ? stages.join(', ') : undefined
}

/** crosstalkMargin reads as: crosstalk margin; itemId as: item. */
function spaced(name: string): string {
  return name.replace(/Id$/, '').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}
