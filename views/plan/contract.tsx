// What a contract's plan really protects: its own words, and the chance that a lot with too many passes.
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import { ClauseQuoted } from '../contract-clause.tsx'
import { counted, frequency, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { doingOf, riskAllowed } from './words.ts'

export function ContractOfLot({ advice }: { advice: Advice }) {
  const { alternatives, lot } = advice
  const { clause } = lot.terms
  const named = alternatives.filter(({ kind }) => kind === 'contract' || kind === 'standard')
  if (!clause && named.length === 0) return null
  return (
    <Topic title="What the contract’s plan really protects">
      <ClauseQuoted clause={clause} />
      {named.map((way) => (
        <p>{protectionOf(way, lot)}</p>
      ))}
      {named.length === 0 && (
        <p>
          Type the plan that it names beside the answer, such as 50/1, and this page says how often a lot with too many
          passes it.
        </p>
      )}
    </Topic>
  )
}

const names = { contract: 'The plan that you named', standard: 'The standard’s plan' } as const

function protectionOf(way: AssessedAlternative, { size, terms }: Advice['lot']): string {
  const { kind, acceptance, rejection, protects, detectsFrom } = way
  const name = kind === 'standard' ? names.standard : names.contract
  const passes = frequency(acceptance, rejection, riskAllowed(terms.catchOf100))
  const what = `${name} (${doingOf(way)}) lets ${passes} lots of ${whole(size)} with ${counted(terms.tooMany, 'nonconforming cord')} through; you want ${terms.catchOf100} of 100 caught.`
  if (detectsFrom === 0) return `${what} No lot slips through it more often than you allow.`
  const worst = `Lots with up to ${whole(detectsFrom)} nonconforming slip through more often than you allow.`
  return protects
    ? `${what} It protects as is demanded: ${worst.toLowerCase()}`
    : `${what} It is weaker than is demanded: ${worst.toLowerCase()} Frozen, it needs a reason; a clause of the contract is one.`
}
