// The stages of a frozen plan as a column: JSON in the database, checked when it is read.
import { customType } from 'drizzle-orm/pg-core'
import { z } from 'zod'
import type { Stage } from '../../app/statistics/plans/plan.ts'

const whole = z.number().int()
const stagesJson = z.array(z.object({ sampleSize: whole, acceptanceNumber: whole, rejectionNumber: whole })).min(1)

/** Cumulative numbers, stage after stage; one stage for every plan that looks at its sample once. */
export const planStages = customType<{ data: readonly Stage[]; driverData: unknown }>({
  dataType: () => 'jsonb',
  fromDriver: (json) => stagesJson.parse(typeof json === 'string' ? JSON.parse(json) : json),
  toDriver: (stages) => JSON.stringify(stages),
})
