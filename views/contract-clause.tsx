// The clause of a contract: typed for an item or an order, and quoted wherever its lot is planned, decided or sent back.
import type { Clause } from '../app/kit/clause.ts'
import { lengths } from '../app/kit/limits.ts'
import type { Problems, Typed } from '../app/kit/problems.ts'
import { Fact, Field, TextArea } from './form.tsx'

/** Number and text, or neither. `hint`: whose clause it is. */
export function ClauseFields({
  typed,
  problems,
  hint,
}: {
  typed: Typed
  problems?: Problems | undefined
  hint: string
}) {
  return (
    <>
      <Field
        name="clauseNumber"
        label="Clause of the contract on inspection, its number"
        hint={hint}
        value={typed.clauseNumber}
        problem={problems?.clauseNumber}
        size="short"
        maxlength={lengths.clauseNumber}
      />
      <TextArea
        name="clauseText"
        label="Its text, word by word"
        value={typed.clauseText}
        problem={problems?.clauseText}
        maxlength={lengths.clauseText}
      />
    </>
  )
}

/** In a list of facts; nothing where there is none. */
export function ClauseFact({ clause }: { clause: Clause | undefined }) {
  return clause ? <Fact name={`Clause ${clause.number} of the contract`}>{quoted(clause)}</Fact> : null
}

/** As a paragraph; nothing where there is none. */
export function ClauseQuoted({ clause }: { clause: Clause | undefined }) {
  if (!clause) return null
  return (
    <p>
      Clause {clause.number} of the contract: {quoted(clause)}
    </p>
  )
}

/** Why a plan weaker than the item demands was taken. */
export function weakerSentence(because: {
  weakerReason?: string | undefined
  weakerByClause?: boolean | undefined
  clause: Clause | undefined
}): string | undefined {
  const { weakerReason, weakerByClause, clause } = because
  if (!weakerByClause || !clause)
    return weakerReason === undefined ? undefined : `Weaker than the item demands, because: ${weakerReason}`
  const named = `Weaker than the item demands, because of clause ${clause.number} of the contract`
  return weakerReason === undefined ? `${named}.` : `${named}: ${weakerReason}`
}

function quoted({ text }: Clause): string {
  return `“${text}”`
}
