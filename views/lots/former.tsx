// The lots before and after a lot, each with a way to its page.
import type { LotLinks } from '../../app/lots/record/former.ts'
import type { FormerLot } from '../../app/lots/rules/former.ts'
import type { FormerKind } from '../../app/terms/lot.ts'
import { Fact } from '../form.tsx'
import { stateWords } from '../words/lots.ts'

export function formerWords({ kind, lotId }: Pick<FormerLot, 'kind' | 'lotId'>) {
  const lot = <a href={`/lots/${lotId}`}>lot {lotId}</a>
  return kind === 'resubmission' ? (
    <>Resubmitted: it was {lot}, which went back.</>
  ) : (
    <>A replacement delivery: it stands in the place of {lot}.</>
  )
}

/** In the record: what the lot was, and what the supplier declares to have sorted. */
export function FormerFacts({ former }: Pick<LotLinks, 'former'>) {
  if (!former) return null
  return (
    <>
      <Fact name="Here before">{formerWords(former)}</Fact>
      {former.kind === 'resubmission' && <Fact name="Sorted, as the supplier declares">{former.sorting}</Fact>}
    </>
  )
}

const laterWords: Record<FormerKind, string> = { resubmission: 'Resubmitted as', replacement: 'Replaced by' }

export function LaterLots({ later }: Pick<LotLinks, 'later'>) {
  return later.map(({ kind, lotId, state }) => (
    <p>
      {laterWords[kind]} <a href={`/lots/${lotId}`}>lot {lotId}</a>, which is {stateWords[state]}.
    </p>
  ))
}

/** What an officer may announce of a lot that went back: it comes again, once, or another comes in its place. */
export function AnnounceAgain({ lotId, again }: { lotId: number; again: readonly FormerKind[] }) {
  const words: Record<FormerKind, string> = {
    resubmission: 'Announce it as resubmitted, once it was sorted',
    replacement: 'Announce a delivery in its place',
  }
  return again.map((kind) => (
    <p class="screen-only">
      <a href={`/lots/new?before=${kind}&formerLot=${lotId}`}>{words[kind]}</a>
    </p>
  ))
}
