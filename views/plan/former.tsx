// A lot that was here before: what it is to the other one, what is demanded of it, and how often it passes in the end if nothing was sorted.
import type { Advice } from '../../app/advice/advise.ts'
import { counted, frequency, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { formerWords } from '../lots/former.tsx'
import { DataTable } from '../table.tsx'

export function FormerOfLot({ advice }: { advice: Advice }) {
  const { lot, standard, tries } = advice
  const { former } = lot.links
  if (!former) return null
  return (
    <Topic title="It was here before">
      <p>
        {formerWords(former)} The switching rules leave it out, as they count original inspections alone.
        {former.kind === 'replacement' && ' What is demanded of it is what the item demands of any lot.'}
      </p>
      {former.kind === 'resubmission' && (
        <>
          <p>
            {standard
              ? 'The item names a limit of the published standard: a resubmitted lot is inspected by its plan for tightened inspection, or by one that keeps what the item demands too where that plan does not; a plan that lets more through needs a reason.'
              : `A resubmitted lot is inspected by the item’s rule at half its risk: of 100 lots with ${counted(lot.terms.tooMany, 'nonconforming cord')} so many as ${lot.terms.catchOf100} are to be caught.`}{' '}
            What the supplier’s process makes is not told by a sorted lot, so it is left out of what is known of the
            supplier. Costs on this page are those of a lot as the supplier makes it, not of a sorted one.
          </p>
          <TriesTable tries={tries} />
        </>
      )}
    </Topic>
  )
}

const planWords = {
  before: ': the plan that rejected it',
  now: ': the plan recommended now',
  both: ': this plan, after the one that rejected it',
}

function TriesTable({ tries }: Pick<Advice, 'tries'>) {
  if (tries.length === 0) return null
  return (
    <DataTable
      caption="How often a lot that is too bad passes if it is just sent again: 1 − (1 − P)^k for k tries by one plan, exact. It supposes that no cord is sorted out between the tries, and that each try draws a fresh random sample of the whole lot."
      columns={[
        { head: 'Such a lot, and the plan' },
        { head: 'Passes in one try', short: 'In one try' },
        { head: 'in two tries', short: 'In two' },
        { head: 'in three tries', short: 'In three' },
      ]}
      rows={tries.map(({ plan, lotSize, tooMany, sampleSize, acceptanceNumber, passes }) => ({
        cells: [
          <>
            {counted(lotSize, 'cord')} with {whole(tooMany)} nonconforming
            <small>
              {acceptanceNumber === undefined
                ? `at most ${whole(sampleSize)} tested, in several samples`
                : `${whole(sampleSize)} tested, ${acceptanceNumber === 0 ? 'none' : `at most ${whole(acceptanceNumber)}`} allowed`}
              {planWords[plan]}
            </small>
          </>,
          ...[0, 1, 2].map((at) => (passes[at] === undefined ? '–' : frequency(passes[at]))),
        ],
      }))}
    />
  )
}
