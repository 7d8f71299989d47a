namespace PreApproval.Storage.Migrations;

/// <summary>
/// Checks and grants for sessions, tokens and counted refusals, and row triggers that hold the application to the workflow: SQL that slips into
/// its connection can't approve anything.
/// </summary>
internal static class MoreGuardsSql
{
    public const string Checks = """
        ALTER TABLE session ADD CONSTRAINT ck_session_hash CHECK (octet_length(hash) = 32);
        ALTER TABLE sign_refusal ADD CONSTRAINT ck_sign_refusal_count CHECK (count >= 1 AND previous_count >= 0);
        """;

    public const string DropChecks = """
        ALTER TABLE sign_refusal DROP CONSTRAINT ck_sign_refusal_count;
        ALTER TABLE session DROP CONSTRAINT ck_session_hash;
        """;

    /// <summary>
    /// Revisions move along the transition table, one version at a time, and are approved only with an approval for every slot. A decision is
    /// its assignee's, on an open slot in review, never the author's, and one person signs one slot of a revision. The head of a log grows by
    /// exactly the events appended, and at the end of a transaction no event lies beyond it.
    /// </summary>
    public const string Triggers = """
        CREATE FUNCTION guard_revision() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF TG_OP = 'INSERT' THEN
                IF NEW.version <> 1 OR (NEW.state, NEW.verdict) NOT IN (('cleared', 'clear'), ('in-review', 'review')) THEN
                    RAISE EXCEPTION 'a revision begins cleared or in review, as its screening says, with version 1' USING ERRCODE = 'restrict_violation';
                END IF;
                RETURN NEW;
            END IF;
            IF NEW.version <> OLD.version + 1 THEN
                RAISE EXCEPTION 'the version of a revision counts up by one' USING ERRCODE = 'restrict_violation';
            END IF;
            IF (OLD.state, NEW.state) NOT IN (
                ('in-review', 'in-review'), ('in-review', 'approved'), ('in-review', 'changes-requested'), ('in-review', 'declined'), ('in-review', 'withdrawn'),
                ('cleared', 'withdrawn'), ('cleared', 'superseded'), ('cleared', 'expired'), ('cleared', 'suspended'),
                ('approved', 'superseded'), ('approved', 'expired'), ('approved', 'suspended')) THEN
                RAISE EXCEPTION 'a revision can''t move from % to %', OLD.state, NEW.state USING ERRCODE = 'restrict_violation';
            END IF;
            IF NEW.state = 'approved' AND (
                NOT EXISTS (SELECT FROM slot s WHERE s.procedure_id = NEW.procedure_id AND s.revision = NEW.number)
                OR EXISTS (
                    SELECT FROM slot s WHERE s.procedure_id = NEW.procedure_id AND s.revision = NEW.number AND NOT EXISTS (
                        SELECT FROM decision d WHERE d.procedure_id = s.procedure_id AND d.revision = s.revision AND d.slot = s.slot AND d.decision = 'approve'))) THEN
                RAISE EXCEPTION 'a revision is approved only with an approval for every slot' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NEW.state IN ('changes-requested', 'declined') AND NOT EXISTS (
                SELECT FROM decision d WHERE d.procedure_id = NEW.procedure_id AND d.revision = NEW.number
                    AND d.decision = CASE NEW.state WHEN 'declined' THEN 'decline' ELSE 'request-changes' END) THEN
                RAISE EXCEPTION 'a revision becomes % only with a decision that says so', NEW.state USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER workflow BEFORE INSERT OR UPDATE ON revision FOR EACH ROW EXECUTE FUNCTION guard_revision();

        CREATE FUNCTION guard_slot() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF OLD.open OR NOT NEW.open THEN
                RAISE EXCEPTION 'a slot is only ever opened' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER workflow BEFORE UPDATE ON slot FOR EACH ROW EXECUTE FUNCTION guard_slot();

        CREATE FUNCTION guard_decision() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NOT EXISTS (
                SELECT FROM slot s JOIN revision r ON r.procedure_id = s.procedure_id AND r.number = s.revision
                WHERE s.procedure_id = NEW.procedure_id AND s.revision = NEW.revision AND s.slot = NEW.slot
                    AND s.open AND s.assignee_id = NEW.signer_id AND r.state = 'in-review' AND r.author_id <> NEW.signer_id) THEN
                RAISE EXCEPTION 'a decision is signed by the person its open slot was routed to, while the revision is in review' USING ERRCODE = 'restrict_violation';
            END IF;
            IF EXISTS (SELECT FROM decision d WHERE d.procedure_id = NEW.procedure_id AND d.revision = NEW.revision AND d.signer_id = NEW.signer_id AND d.slot <> NEW.slot) THEN
                RAISE EXCEPTION 'nobody signs two slots of a revision' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER workflow BEFORE INSERT ON decision FOR EACH ROW EXECUTE FUNCTION guard_decision();

        CREATE FUNCTION guard_audit_head() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF TG_OP = 'INSERT' THEN
                IF NEW.size <> 0 OR EXISTS (SELECT FROM audit_event e WHERE e.group_id = NEW.group_id) THEN
                    RAISE EXCEPTION 'a log begins empty' USING ERRCODE = 'restrict_violation';
                END IF;
                RETURN NEW;
            END IF;
            IF NEW.group_id <> OLD.group_id OR NEW.size <= OLD.size
                OR NEW.size <> (SELECT max(seq) + 1 FROM audit_event e WHERE e.group_id = NEW.group_id)
                OR NEW.size - OLD.size <> (SELECT count(*) FROM audit_event e WHERE e.group_id = NEW.group_id AND e.seq >= OLD.size) THEN
                RAISE EXCEPTION 'the head of a log grows by exactly the events appended' USING ERRCODE = 'restrict_violation';
            END IF;
            IF substring(NEW.compact_range FROM 1 FOR 8) <> int8send(NEW.size) THEN
                RAISE EXCEPTION 'the right edge of a log is of another size than the log' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER growth BEFORE INSERT OR UPDATE ON audit_head FOR EACH ROW EXECUTE FUNCTION guard_audit_head();

        CREATE FUNCTION guard_audit_event() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NOT EXISTS (SELECT FROM audit_head h WHERE h.group_id = NEW.group_id AND h.size > NEW.seq) THEN
                RAISE EXCEPTION 'event % lies beyond the head of its log', NEW.seq USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NULL;
        END $$;
        CREATE CONSTRAINT TRIGGER within_head AFTER INSERT ON audit_event DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION guard_audit_event();
        """;

    public const string DropTriggers = """
        DROP TRIGGER within_head ON audit_event;
        DROP TRIGGER growth ON audit_head;
        DROP TRIGGER workflow ON decision;
        DROP TRIGGER workflow ON slot;
        DROP TRIGGER workflow ON revision;
        DROP FUNCTION guard_audit_event();
        DROP FUNCTION guard_audit_head();
        DROP FUNCTION guard_decision();
        DROP FUNCTION guard_slot();
        DROP FUNCTION guard_revision();
        """;

    public const string Grants = $"""
        GRANT SELECT, INSERT, DELETE ON session TO {Migrator.ApplicationRole};
        GRANT UPDATE (ended_at) ON session TO {Migrator.ApplicationRole};
        GRANT SELECT, INSERT ON sign_refusal TO {Migrator.ApplicationRole};
        GRANT UPDATE (window_start, count, previous_count) ON sign_refusal TO {Migrator.ApplicationRole};
        GRANT UPDATE (last_used_at) ON api_token TO {Migrator.ApplicationRole};
        """;

    public const string RevokeGrants = $"""
        REVOKE UPDATE (last_used_at) ON api_token FROM {Migrator.ApplicationRole};
        REVOKE ALL ON sign_refusal, session FROM {Migrator.ApplicationRole};
        """;
}
