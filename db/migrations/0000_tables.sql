CREATE TYPE "public"."decided_after" AS ENUM('sample', 'screening');--> statement-breakpoint
CREATE TYPE "public"."lot_state" AS ENUM('announced', 'received', 'planned', 'drawn', 'accepted', 'conceded', 'screening', 'screened', 'sorted', 'returned', 'withdrawn');--> statement-breakpoint
CREATE TYPE "public"."outcome" AS ENUM('accepted', 'conceded', 'screened', 'sorted', 'returned');--> statement-breakpoint
CREATE TYPE "public"."plan_kind" AS ENUM('zero-acceptance', 'single', 'percentage', 'contract', 'every-cord', 'double', 'sequential', 'standard');--> statement-breakpoint
CREATE TYPE "public"."verdict" AS ENUM('accept', 'reject');--> statement-breakpoint
CREATE TYPE "public"."link_purpose" AS ENUM('set-up', 'new-password', 'new-manager');--> statement-breakpoint
CREATE TYPE "public"."role" AS ENUM('officer', 'inspector', 'manager');--> statement-breakpoint
CREATE TYPE "public"."inspection_level" AS ENUM('S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III');--> statement-breakpoint
CREATE TYPE "public"."marginal_policy" AS ENUM('strict', 'lenient');--> statement-breakpoint
CREATE TYPE "public"."series_note" AS ENUM('supplier-acted', 'reduced-wanted', 'reduced-ended');--> statement-breakpoint
CREATE TYPE "public"."cord_state" AS ENUM('conforms', 'marginal', 'does-not-conform', 'not-tested');--> statement-breakpoint
CREATE TYPE "public"."drawn_for" AS ENUM('sample', 'stand-in', 'rest');--> statement-breakpoint
CREATE TYPE "public"."inspection" AS ENUM('in-order', 'at-fault');--> statement-breakpoint
CREATE TYPE "public"."result_kind" AS ENUM('tested', 'missing', 'untestable');--> statement-breakpoint
CREATE TABLE "audit" (
	"id" bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "audit_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 9223372036854775807 START WITH 1 CACHE 1),
	"at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"person_id" integer,
	"person_name" text NOT NULL,
	"person_role" "role",
	"action" text NOT NULL,
	"subject" text NOT NULL,
	"detail" jsonb NOT NULL,
	"clock_behind" integer,
	CONSTRAINT "audit_action_form" CHECK ("audit"."action" ~ '^[a-z-]+\.[a-z-]+$')
);
--> statement-breakpoint
CREATE TABLE "event_counts" (
	"event" text NOT NULL,
	"hour" timestamp with time zone NOT NULL,
	"times" integer NOT NULL,
	CONSTRAINT "event_counts_event_hour_pk" PRIMARY KEY("event","hour")
);
--> statement-breakpoint
CREATE TABLE "decisions" (
	"lot_id" integer NOT NULL,
	"after" "decided_after" NOT NULL,
	"outcome" "outcome" NOT NULL,
	"verdict" "verdict",
	"reason" text NOT NULL,
	"recorded" integer NOT NULL,
	"found" integer NOT NULL,
	"upper_bound_in_lot" integer NOT NULL,
	"evidence" jsonb NOT NULL,
	"duties_separated" boolean NOT NULL,
	"risk_bearer" text,
	"concession_use" text,
	"concession_cords" integer,
	"concession_until" date,
	"decided_by" integer NOT NULL,
	"decided_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "decisions_lot_id_after_pk" PRIMARY KEY("lot_id","after"),
	CONSTRAINT "decisions_outcome_of_its_time" CHECK (("decisions"."after" = 'sample') = ("decisions"."verdict" is not null) and (("decisions"."after" = 'sample' and "decisions"."outcome"::text <> 'sorted') or ("decisions"."after" = 'screening' and "decisions"."outcome"::text in ('sorted', 'returned')))),
	CONSTRAINT "decisions_against_the_verdict_with_reason" CHECK (length(trim("decisions"."reason")) > 0 or "decisions"."after" = 'screening' or ("decisions"."verdict" = 'accept' and "decisions"."outcome" = 'accepted') or ("decisions"."verdict" = 'reject' and "decisions"."outcome" in ('returned', 'screened'))),
	CONSTRAINT "decisions_concession_whole" CHECK (case when "decisions"."outcome" = 'conceded' then length(trim(coalesce("decisions"."risk_bearer", ''))) > 0 and length(trim(coalesce("decisions"."concession_use", ''))) > 0 and "decisions"."concession_cords" >= 1 and "decisions"."concession_until" is not null
        else "decisions"."risk_bearer" is null and "decisions"."concession_use" is null and "decisions"."concession_cords" is null and "decisions"."concession_until" is null end)
);
--> statement-breakpoint
CREATE TABLE "lots" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "lots_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"supplier_id" integer NOT NULL,
	"item_id" integer NOT NULL,
	"announced_size" integer NOT NULL,
	"cartons" integer NOT NULL,
	"cords_in_carton" integer NOT NULL,
	"production_mark" text NOT NULL,
	"purchase_order" text NOT NULL,
	"isolated" boolean DEFAULT false NOT NULL,
	"announced_by" integer NOT NULL,
	"announced_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"size" integer,
	"received_by" integer,
	"received_at" timestamp with time zone,
	"receipt_note" text,
	"state" "lot_state" DEFAULT 'announced' NOT NULL,
	"withdrawn_by" integer,
	"withdrawn_at" timestamp with time zone,
	"withdrawal_reason" text,
	"version" integer DEFAULT 1 NOT NULL,
	"moved_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"done_at" timestamp with time zone,
	CONSTRAINT "lots_announced_size" CHECK ("lots"."announced_size" between 1 and 1000000),
	CONSTRAINT "lots_size" CHECK ("lots"."size" between 1 and 1000000),
	CONSTRAINT "lots_cartons" CHECK ("lots"."cartons" >= 1 and "lots"."cords_in_carton" >= 1),
	CONSTRAINT "lots_cartons_hold_the_cords" CHECK (coalesce("lots"."size", "lots"."announced_size")::bigint between ("lots"."cartons"::bigint - 1) * "lots"."cords_in_carton" + 1 and "lots"."cartons"::bigint * "lots"."cords_in_carton"),
	CONSTRAINT "lots_received_whole" CHECK (("lots"."size" is null) = ("lots"."received_at" is null) and ("lots"."size" is null) = ("lots"."received_by" is null) and ("lots"."size" is not null or "lots"."state" in ('announced', 'withdrawn'))),
	CONSTRAINT "lots_withdrawn_with_reason" CHECK (("lots"."state" = 'withdrawn') = ("lots"."withdrawal_reason" is not null and "lots"."withdrawn_by" is not null and "lots"."withdrawn_at" is not null))
);
--> statement-breakpoint
CREATE TABLE "plans" (
	"lot_id" integer PRIMARY KEY NOT NULL,
	"kind" "plan_kind" NOT NULL,
	"lot_size" integer NOT NULL,
	"sample_size" integer NOT NULL,
	"acceptance_number" integer NOT NULL,
	"stages" jsonb NOT NULL,
	"too_many" integer NOT NULL,
	"catch_of100" numeric NOT NULL,
	"category_claimed" text NOT NULL,
	"cord_limit" text NOT NULL,
	"marginal_policy" "marginal_policy" NOT NULL,
	"crosstalk_accuracy" numeric NOT NULL,
	"return_loss_accuracy" numeric NOT NULL,
	"cost_test_cents" integer NOT NULL,
	"cost_escape_cents" integer NOT NULL,
	"cost_return_cents" integer NOT NULL,
	"frozen_by" integer NOT NULL,
	"frozen_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "plans_sample" CHECK ("plans"."sample_size" between 1 and "plans"."lot_size"),
	CONSTRAINT "plans_acceptance" CHECK ("plans"."acceptance_number" between 0 and "plans"."sample_size"),
	CONSTRAINT "plans_too_many" CHECK ("plans"."too_many" between 1 and "plans"."lot_size"),
	CONSTRAINT "plans_last_stage" CHECK (jsonb_typeof("plans"."stages") = 'array' and ("plans"."stages" -> -1 ->> 'sampleSize')::int is not distinct from "plans"."sample_size" and ("plans"."stages" -> -1 ->> 'acceptanceNumber')::int is not distinct from "plans"."acceptance_number"),
	CONSTRAINT "plans_stages_of_their_kind" CHECK (jsonb_array_length("plans"."stages") = 1 or "plans"."kind"::text in ('double', 'sequential', 'standard')),
	CONSTRAINT "plans_every_cord" CHECK ("plans"."kind" <> 'every-cord' or ("plans"."sample_size" = "plans"."lot_size" and "plans"."acceptance_number" = "plans"."lot_size"))
);
--> statement-breakpoint
CREATE TABLE "firms" (
	"id" integer PRIMARY KEY DEFAULT 1 NOT NULL,
	"name" text NOT NULL,
	"example" boolean NOT NULL,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "firms_single" CHECK ("firms"."id" = 1),
	CONSTRAINT "firms_name_length" CHECK (length(trim("firms"."name")) between 1 and 120)
);
--> statement-breakpoint
CREATE TABLE "one_time_links" (
	"token_hash" text PRIMARY KEY NOT NULL,
	"purpose" "link_purpose" NOT NULL,
	"person_id" integer,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"used_at" timestamp with time zone,
	CONSTRAINT "one_time_links_whose" CHECK (("one_time_links"."purpose" = 'new-password') = ("one_time_links"."person_id" is not null))
);
--> statement-breakpoint
CREATE TABLE "password_attempts" (
	"counter" text PRIMARY KEY NOT NULL,
	"failures" integer NOT NULL,
	"last_at" timestamp with time zone NOT NULL,
	"next_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "people" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "people_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"name" text NOT NULL,
	"role" "role" NOT NULL,
	"password_hash" text,
	"password_temporary" boolean DEFAULT false NOT NULL,
	"active" boolean DEFAULT true NOT NULL,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "people_name_length" CHECK (length(trim("people"."name")) between 1 and 80)
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"token_hash" text PRIMARY KEY NOT NULL,
	"person_id" integer NOT NULL,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"last_seen_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"expires_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "submissions" (
	"key" uuid PRIMARY KEY NOT NULL,
	"person_id" integer NOT NULL,
	"act" text NOT NULL,
	"subject" text NOT NULL,
	"input_digest" text NOT NULL,
	"at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"made" integer
);
--> statement-breakpoint
CREATE TABLE "items" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "items_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"name" text NOT NULL,
	"category_claimed" text NOT NULL,
	"cord_limit" text NOT NULL,
	"length_metres" numeric NOT NULL,
	"marginal_policy" "marginal_policy" NOT NULL,
	"crosstalk_accuracy" numeric NOT NULL,
	"return_loss_accuracy" numeric NOT NULL,
	"too_many" text NOT NULL,
	"catch_of100" numeric NOT NULL,
	"cost_test_cents" integer NOT NULL,
	"cost_escape_cents" integer NOT NULL,
	"cost_return_cents" integer NOT NULL,
	"critical" boolean DEFAULT false NOT NULL,
	"acceptance_quality_limit" numeric,
	"inspection_level" "inspection_level" DEFAULT 'II' NOT NULL,
	"created_by" integer NOT NULL,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"version" integer DEFAULT 1 NOT NULL,
	CONSTRAINT "items_name_length" CHECK (length(trim("items"."name")) between 1 and 120),
	CONSTRAINT "items_length" CHECK ("items"."length_metres" > 0 and "items"."length_metres" <= 100),
	CONSTRAINT "items_accuracy" CHECK ("items"."crosstalk_accuracy" >= 0 and "items"."crosstalk_accuracy" <= 20 and "items"."return_loss_accuracy" >= 0 and "items"."return_loss_accuracy" <= 20),
	CONSTRAINT "items_too_many" CHECK ("items"."too_many" ~ '^([1-9][0-9]*|[0-9]+(\.[0-9]+)?%)$'),
	CONSTRAINT "items_quality_limit" CHECK ("items"."acceptance_quality_limit" > 0 and "items"."acceptance_quality_limit" <= 10),
	CONSTRAINT "items_catch" CHECK ("items"."catch_of100" > 0 and "items"."catch_of100" < 100),
	CONSTRAINT "items_costs" CHECK ("items"."cost_test_cents" >= 0 and "items"."cost_escape_cents" >= 0 and "items"."cost_return_cents" >= 0)
);
--> statement-breakpoint
CREATE TABLE "series_notes" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "series_notes_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"supplier_id" integer NOT NULL,
	"item_id" integer NOT NULL,
	"kind" "series_note" NOT NULL,
	"reason" text NOT NULL,
	"noted_by" integer NOT NULL,
	"at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "series_notes_reason" CHECK (length(trim("series_notes"."reason")) between 1 and 2000)
);
--> statement-breakpoint
CREATE TABLE "suppliers" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "suppliers_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"name" text NOT NULL,
	"created_by" integer NOT NULL,
	"created_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "suppliers_name_length" CHECK (length(trim("suppliers"."name")) between 1 and 120)
);
--> statement-breakpoint
CREATE TABLE "drawn_cords" (
	"lot_id" integer NOT NULL,
	"position" integer NOT NULL,
	"purpose" "drawn_for" NOT NULL,
	"pick" integer,
	"stage" integer,
	"stands_in_for" integer,
	"allowed_by" integer,
	CONSTRAINT "drawn_cords_lot_id_position_pk" PRIMARY KEY("lot_id","position"),
	CONSTRAINT "drawn_cords_position" CHECK ("drawn_cords"."position" >= 1),
	CONSTRAINT "drawn_cords_pick_unless_rest" CHECK (("drawn_cords"."purpose" = 'rest') = ("drawn_cords"."pick" is null)),
	CONSTRAINT "drawn_cords_stage_unless_rest" CHECK (("drawn_cords"."purpose" = 'rest') = ("drawn_cords"."stage" is null) and "drawn_cords"."stage" >= 1),
	CONSTRAINT "drawn_cords_stand_in" CHECK (("drawn_cords"."purpose" = 'stand-in') = ("drawn_cords"."stands_in_for" is not null and "drawn_cords"."allowed_by" is not null))
);
--> statement-breakpoint
CREATE TABLE "draws" (
	"lot_id" integer PRIMARY KEY NOT NULL,
	"seed" text NOT NULL,
	"method" text NOT NULL,
	"drawn_by" integer NOT NULL,
	"drawn_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "earlier_results" (
	"lot_id" integer NOT NULL,
	"position" integer NOT NULL,
	"entry" integer NOT NULL,
	"kind" "result_kind" NOT NULL,
	"crosstalk_margin" numeric,
	"return_loss_margin" numeric,
	"wire_map" "inspection",
	"visual" "inspection",
	"state" "cord_state" NOT NULL,
	"nonconforming" boolean NOT NULL,
	"note" text,
	"carton" text,
	"spool" text,
	"tester_serial" text,
	"recorded_by" integer NOT NULL,
	"form_key" uuid,
	"recorded_at" timestamp with time zone NOT NULL,
	"lot_version" integer NOT NULL,
	"corrected_by" integer NOT NULL,
	"corrected_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"correction_reason" text NOT NULL,
	CONSTRAINT "earlier_results_lot_id_position_entry_pk" PRIMARY KEY("lot_id","position","entry"),
	CONSTRAINT "earlier_results_reason" CHECK (length(trim("earlier_results"."correction_reason")) > 0)
);
--> statement-breakpoint
CREATE TABLE "results" (
	"lot_id" integer NOT NULL,
	"position" integer NOT NULL,
	"kind" "result_kind" NOT NULL,
	"crosstalk_margin" numeric,
	"return_loss_margin" numeric,
	"wire_map" "inspection",
	"visual" "inspection",
	"state" "cord_state" NOT NULL,
	"nonconforming" boolean NOT NULL,
	"note" text,
	"carton" text,
	"spool" text,
	"tester_serial" text,
	"recorded_by" integer NOT NULL,
	"form_key" uuid,
	"counts" boolean DEFAULT true NOT NULL,
	"entry" integer DEFAULT 1 NOT NULL,
	"recorded_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"lot_version" integer DEFAULT 0 NOT NULL,
	CONSTRAINT "results_lot_id_position_pk" PRIMARY KEY("lot_id","position"),
	CONSTRAINT "results_margins_in_range" CHECK ("results"."crosstalk_margin" between -100 and 100 and "results"."return_loss_margin" between -100 and 100),
	CONSTRAINT "results_whole" CHECK (case when "results"."kind" = 'tested' then "results"."wire_map" is not null and "results"."visual" is not null and "results"."state" <> 'not-tested'
        and ("results"."wire_map" = 'at-fault' or "results"."visual" = 'at-fault' or ("results"."crosstalk_margin" is not null and "results"."return_loss_margin" is not null))
        else "results"."state" = 'not-tested' and "results"."nonconforming" and length(trim(coalesce("results"."note", ''))) > 0 and "results"."crosstalk_margin" is null and "results"."return_loss_margin" is null end),
	CONSTRAINT "results_below_the_limit" CHECK ("results"."state" = 'does-not-conform' or not (coalesce("results"."crosstalk_margin", 0) < 0 or coalesce("results"."return_loss_margin", 0) < 0 or "results"."wire_map" = 'at-fault' or "results"."visual" = 'at-fault')),
	CONSTRAINT "results_counts_against" CHECK (("results"."state" <> 'does-not-conform' or "results"."nonconforming") and ("results"."state" <> 'conforms' or not "results"."nonconforming")),
	CONSTRAINT "results_counting" CHECK ("results"."counts" or "results"."kind" <> 'tested')
);
--> statement-breakpoint
CREATE TABLE "spool_tallies" (
	"lot_id" integer NOT NULL,
	"spool" text NOT NULL,
	"recorded" integer NOT NULL,
	"nonconforming" integer NOT NULL,
	CONSTRAINT "spool_tallies_lot_id_spool_pk" PRIMARY KEY("lot_id","spool")
);
--> statement-breakpoint
CREATE TABLE "tallies" (
	"lot_id" integer PRIMARY KEY NOT NULL,
	"sample_recorded" integer DEFAULT 0 NOT NULL,
	"sample_nonconforming" integer DEFAULT 0 NOT NULL,
	"rest_recorded" integer DEFAULT 0 NOT NULL,
	"rest_nonconforming" integer DEFAULT 0 NOT NULL,
	"not_tested" integer DEFAULT 0 NOT NULL,
	"sample_not_tested" integer DEFAULT 0 NOT NULL,
	"missing" integer DEFAULT 0 NOT NULL,
	"marginal" integer DEFAULT 0 NOT NULL,
	"crosstalk_short" integer DEFAULT 0 NOT NULL,
	"return_loss_short" integer DEFAULT 0 NOT NULL,
	"wire_map_at_fault" integer DEFAULT 0 NOT NULL,
	"visual_at_fault" integer DEFAULT 0 NOT NULL
);
--> statement-breakpoint
ALTER TABLE "audit" ADD CONSTRAINT "audit_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_decided_by_people_id_fk" FOREIGN KEY ("decided_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_item_id_items_id_fk" FOREIGN KEY ("item_id") REFERENCES "public"."items"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_announced_by_people_id_fk" FOREIGN KEY ("announced_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_received_by_people_id_fk" FOREIGN KEY ("received_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_withdrawn_by_people_id_fk" FOREIGN KEY ("withdrawn_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_frozen_by_people_id_fk" FOREIGN KEY ("frozen_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "one_time_links" ADD CONSTRAINT "one_time_links_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sessions" ADD CONSTRAINT "sessions_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "submissions" ADD CONSTRAINT "submissions_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "items" ADD CONSTRAINT "items_created_by_people_id_fk" FOREIGN KEY ("created_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_item_id_items_id_fk" FOREIGN KEY ("item_id") REFERENCES "public"."items"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_noted_by_people_id_fk" FOREIGN KEY ("noted_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "suppliers" ADD CONSTRAINT "suppliers_created_by_people_id_fk" FOREIGN KEY ("created_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD CONSTRAINT "drawn_cords_lot_id_draws_lot_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."draws"("lot_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD CONSTRAINT "drawn_cords_allowed_by_people_id_fk" FOREIGN KEY ("allowed_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD CONSTRAINT "drawn_cords_lot_id_stands_in_for_drawn_cords_lot_id_position_fk" FOREIGN KEY ("lot_id","stands_in_for") REFERENCES "public"."drawn_cords"("lot_id","position") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "draws" ADD CONSTRAINT "draws_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "draws" ADD CONSTRAINT "draws_drawn_by_people_id_fk" FOREIGN KEY ("drawn_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "earlier_results" ADD CONSTRAINT "earlier_results_recorded_by_people_id_fk" FOREIGN KEY ("recorded_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "earlier_results" ADD CONSTRAINT "earlier_results_corrected_by_people_id_fk" FOREIGN KEY ("corrected_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "earlier_results" ADD CONSTRAINT "earlier_results_lot_id_position_results_lot_id_position_fk" FOREIGN KEY ("lot_id","position") REFERENCES "public"."results"("lot_id","position") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "results" ADD CONSTRAINT "results_recorded_by_people_id_fk" FOREIGN KEY ("recorded_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "results" ADD CONSTRAINT "results_lot_id_position_drawn_cords_lot_id_position_fk" FOREIGN KEY ("lot_id","position") REFERENCES "public"."drawn_cords"("lot_id","position") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "spool_tallies" ADD CONSTRAINT "spool_tallies_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tallies" ADD CONSTRAINT "tallies_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "audit_subject" ON "audit" USING btree ("subject","id");--> statement-breakpoint
CREATE INDEX "audit_clock_behind" ON "audit" USING btree ("subject") WHERE "audit"."clock_behind" is not null;--> statement-breakpoint
CREATE INDEX "lots_state" ON "lots" USING btree ("state","id");--> statement-breakpoint
CREATE INDEX "lots_done" ON "lots" USING btree ("done_at","id");--> statement-breakpoint
CREATE INDEX "lots_supplier" ON "lots" USING btree ("supplier_id","id");--> statement-breakpoint
CREATE INDEX "lots_item" ON "lots" USING btree ("item_id","id");--> statement-breakpoint
CREATE INDEX "one_time_links_person" ON "one_time_links" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "password_attempts_last" ON "password_attempts" USING btree ("last_at");--> statement-breakpoint
CREATE INDEX "sessions_person" ON "sessions" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "sessions_expiry" ON "sessions" USING btree ("expires_at");--> statement-breakpoint
CREATE INDEX "submissions_at" ON "submissions" USING btree ("at");--> statement-breakpoint
CREATE UNIQUE INDEX "items_name" ON "items" USING btree (lower("name"));--> statement-breakpoint
CREATE INDEX "series_notes_series" ON "series_notes" USING btree ("supplier_id","item_id","id");--> statement-breakpoint
CREATE UNIQUE INDEX "suppliers_name" ON "suppliers" USING btree (lower("name"));--> statement-breakpoint
CREATE UNIQUE INDEX "drawn_cords_pick" ON "drawn_cords" USING btree ("lot_id","pick");--> statement-breakpoint
CREATE UNIQUE INDEX "drawn_cords_one_stand_in" ON "drawn_cords" USING btree ("lot_id","stands_in_for") WHERE "drawn_cords"."stands_in_for" is not null;--> statement-breakpoint
CREATE INDEX "results_recorder" ON "results" USING btree ("lot_id","recorded_by");--> statement-breakpoint
CREATE INDEX "results_nonconforming" ON "results" USING btree ("lot_id","position") WHERE "results"."nonconforming";--> statement-breakpoint
CREATE INDEX "results_rejecting" ON "results" USING btree ("lot_id","recorded_at","position") WHERE "results"."nonconforming" and "results"."counts";