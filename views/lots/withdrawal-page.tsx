// The manager withdraws a lot before its decision.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { ProblemSummary, TextArea, Version } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'

type Props = Frame & { lot: LotRecord; problems?: Problems | undefined; typed?: Typed | undefined }

export function WithdrawalPage({ viewer, firm, done, lot, problems, typed }: Props) {
  return (
    <Page title={`Withdraw lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Withdraw <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p>
        For a lot that was entered by mistake or sent back untested. It stays readable with everything recorded of it,
        it counts nowhere in the supplier’s history, and it cannot be brought back.
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/lots/${lot.id}/withdrawal`}>
        <Version value={Number(typed?.version ?? lot.version)} />
        <TextArea
          name="reason"
          label="Reason"
          value={typed?.reason}
          problem={problems?.reason}
          maxlength={2000}
          required
        />
        <button type="submit">Withdraw this lot</button>
      </form>
    </Page>
  )
}
