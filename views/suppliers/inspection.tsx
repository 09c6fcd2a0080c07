// How strictly a series is inspected under the published standard, why, and what the standard's plan said of each lot.
import type { Switching } from '../../app/series/switching.ts'
import type { LotVerdict } from '../../app/series/verdicts.ts'
import { counted, day, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { allowedWords, inspectionsWords, inspectionWords, lotsWords, reasonWords } from './words.ts'

export function InspectionOf({ switching }: { switching: Switching | undefined }) {
  if (!switching)
    return (
      <p>
        The item names no acceptance quality limit: no contract asks for the published standard, and its switching rules
        say nothing of this series.
      </p>
    )
  const { inspection, outside } = switching
  return (
    <>
      <p>
        {inspection === 'not-known' ? <NotKnown switching={switching} /> : <Known switching={switching} />}
        {outside > 0 &&
          ` ${counted(outside, 'decided lot stands', 'decided lots stand')} outside the series and ${outside === 1 ? 'is' : 'are'} not counted.`}
      </p>
      <p class="caution">
        Computed from the decided lots by the switching rules of MIL-STD-105E (1989), 4.7 and 4.8; the way to reduced
        inspection is by the switching score of ISO 2859-1:1999, recalled from memory: check it against your copy. The
        verdict of a lot is that of the standard’s own plan on the first picks of its draw, whatever the house’s own
        plan ended with and whatever was decided.
      </p>
      <Verdicts verdicts={switching.verdicts} />
    </>
  )
}

function Known({ switching }: { switching: Switching }) {
  const { inspection, lastChange, state, verdicts } = switching
  return (
    <>
      <b>{inspectionWords[inspection]}.</b>{' '}
      {lastChange
        ? changeWords(lastChange, state.reason)
        : `No change so far, over ${counted(verdicts.length, 'decided lot')}: ${reasonWords.start}.`}{' '}
      {memoryWords(switching)}
    </>
  )
}

/** Neither dropped nor counted as accepted: what is possible, what the next lot meets, and what would settle it. */
function NotKnown({ switching }: { switching: Switching }) {
  const { lastChange, unsettled, possible, state, knownAfter } = switching
  const since = lastChange?.lotId === undefined ? 'a manager’s note' : `lot ${lastChange.lotId}`
  const [one] = unsettled
  const would = unsettled.length === 1 ? `lot ${one} would have been` : 'they would have been'
  return (
    <>
      <b>Not known since {since}.</b> {lotsWords(unsettled)} {unsettled.length === 1 ? 'has' : 'have'} no verdict under
      the standard: neither dropped nor counted as accepted.{' '}
      {possible.length === 1
        ? `The series stands under ${inspectionsWords(possible)} inspection whatever ${would}; what comes after it is open.`
        : `The series stands under ${inspectionsWords(possible)} inspection.`}{' '}
      {state.inspection === 'discontinued'
        ? 'As it may be discontinued, no lot is to be taken until the supplier has acted.'
        : `The next lot gets the plan of ${state.inspection} inspection${possible.length > 1 ? ', the strictest of these' : ''}.`}{' '}
      {knownAfter !== undefined &&
        `The state is known again after ${counted(knownAfter, 'lot')} accepted in a row from here, whatever ${would}.`}
    </>
  )
}

function changeWords(
  { from, at, lotId, note }: NonNullable<Switching['lastChange']>,
  reason: Switching['state']['reason'],
): string {
  const by = lotId === undefined ? `a manager noted: ${note}` : `with the decision on lot ${lotId}`
  if (from === 'not-known')
    return `Known again since ${day(at)} (${by}): whatever the lots without a verdict would have been, those after them lead here.`
  return `Since ${day(at)}, before that ${inspectionWords[from].toLowerCase()}: ${reasonWords[reason]} (${by}).`
}

/** What the rules remember, and so what would change the state. */
function memoryWords({ state, score }: Switching): string {
  switch (state.inspection) {
    case 'normal':
      return `${state.latest.includes(false) ? 'One of the latest lots was not accepted; another among the next ones makes it tightened.' : 'Two lots not accepted among five make it tightened.'} Switching score ${scoreWords(score)} of 30.`
    case 'tightened':
      return `Back to normal after 5 accepted lots in a row (${whole(state.acceptedInARow)} so far). Discontinued after 5 not accepted (${whole(state.notAccepted)} so far).`
    case 'reduced':
      return 'One lot not accepted makes it normal again.'
    case 'discontinued':
      return 'No lot is taken until the supplier has acted.'
  }
}

function scoreWords(score: Switching['score']): string {
  if (!score) return '0'
  return score.least === score.most ? whole(score.least) : `${whole(score.least)} to ${whole(score.most)}`
}

const shown = 10

/** The latest lots, the oldest of them first. */
function Verdicts({ verdicts }: { verdicts: LotVerdict[] }) {
  if (verdicts.length === 0) return null
  const replayed = verdicts.filter((lot) => lot.replayed).length
  return (
    <>
      <DataTable
        caption={
          verdicts.length > shown
            ? `The standard’s verdict on the latest ${whole(shown)} of ${whole(verdicts.length)} lots`
            : 'The standard’s verdict on each lot'
        }
        columns={[
          { head: 'Lot' },
          { head: 'Decided', text: true },
          { head: 'Standard’s plan', text: true },
          { head: 'First picks tested' },
          { head: 'Nonconforming' },
          { head: 'Verdict under the standard', text: true },
        ]}
        rows={verdicts.slice(-shown).map((lot) => ({
          cells: [
            <a href={`/lots/${lot.lotId}`}>Lot {lot.lotId}</a>,
            day(lot.at),
            `${counted(lot.standard.sampleSize, 'cord')}, ${allowedWords(lot.standard)}, ${lot.standard.severity}`,
            `${whole(lot.recorded)} of ${whole(lot.standard.sampleSize)}`,
            whole(lot.found),
            verdictWords(lot),
          ],
        }))}
      />
      {replayed > 0 && (
        <p>
          {replayed === 1 ? 'One lot was' : `${counted(replayed, 'lot')} were`} planned before the standard’s plan was
          frozen with each lot. Each is taken by the plan that the item’s limit asks for at its size, in the severity
          that the series had when its own plan was frozen, on the first picks of its recorded draw.
        </p>
      )}
    </>
  )
}

function verdictWords({ verdict, drawn, standard: { sampleSize } }: LotVerdict): string {
  switch (verdict) {
    case 'accept':
      return 'accepted'
    case 'reject':
      return 'not accepted'
    case 'not known':
      return drawn < sampleSize ? `none: only ${whole(drawn)} were drawn` : 'none: the first picks are not all tested'
  }
}
