namespace PreApproval.Storage.Migrations;

/// <summary>What the model can't say: checks, append-only triggers, and the grants of the application's role.</summary>
internal static class GuardsSql
{
    /// <summary>The states of a revision and the other closed lists; digests that must be those of the bytes beside them.</summary>
    public const string Checks = """
        ALTER TABLE revision
            ADD CONSTRAINT ck_revision_state CHECK (state IN ('cleared', 'in-review', 'approved', 'changes-requested', 'declined', 'withdrawn', 'expired', 'superseded', 'suspended')),
            ADD CONSTRAINT ck_revision_verdict CHECK (verdict IN ('clear', 'review')),
            ADD CONSTRAINT ck_revision_worst CHECK (worst IN ('danger', 'warning', 'caution', 'notice')),
            ADD CONSTRAINT ck_revision_number CHECK (number >= 1 AND version >= 1 AND finding_count >= 0),
            ADD CONSTRAINT ck_revision_document_digest CHECK (document_digest ~ '^sha256:[0-9a-f]{64}$'),
            ADD CONSTRAINT ck_revision_screening_digest CHECK (screening_digest = 'sha256:' || encode(sha256(screening), 'hex'));
        ALTER TABLE finding
            ADD CONSTRAINT ck_finding_hazard CHECK (hazard IN ('pressure', 'incompatibility', 'fire', 'energetic', 'gas', 'heat', 'toxicity', 'peroxide', 'temperature', 'safeguard', 'data')),
            ADD CONSTRAINT ck_finding_severity CHECK (severity IN ('danger', 'warning', 'caution', 'notice'));
        ALTER TABLE slot
            ADD CONSTRAINT ck_slot_kind CHECK (kind IN ('review', 'countersign')),
            ADD CONSTRAINT ck_slot_required_role CHECK (required_role IN ('reviewer', 'lead'));
        ALTER TABLE decision
            ADD CONSTRAINT ck_decision_decision CHECK (decision IN ('approve', 'request-changes', 'decline')),
            ADD CONSTRAINT ck_decision_reason CHECK (decision = 'approve' OR btrim(reason) <> ''),
            ADD CONSTRAINT ck_decision_bound_digest CHECK (bound_digest = 'sha256:' || encode(sha256(bound), 'hex'));
        ALTER TABLE membership_role
            ADD CONSTRAINT ck_membership_role_role CHECK (role IN ('member', 'reviewer', 'lead', 'administrator', 'auditor'));
        ALTER TABLE membership_competence
            ADD CONSTRAINT ck_membership_competence_hazard CHECK (hazard IN ('pressure', 'incompatibility', 'fire', 'energetic', 'gas', 'heat', 'toxicity', 'peroxide', 'temperature', 'safeguard', 'data'));
        ALTER TABLE routing_rule
            ADD CONSTRAINT ck_routing_rule_hazard CHECK (hazard IN ('pressure', 'incompatibility', 'fire', 'energetic', 'gas', 'heat', 'toxicity', 'peroxide', 'temperature', 'safeguard', 'data'));
        ALTER TABLE draft ADD CONSTRAINT ck_draft_version CHECK (version >= 1);
        ALTER TABLE procedure ADD CONSTRAINT ck_procedure_latest_revision CHECK (latest_revision >= 0);
        ALTER TABLE group_policy ADD CONSTRAINT ck_group_policy_review_days CHECK (review_days BETWEEN 1 AND 365);
        ALTER TABLE audit_event
            ADD CONSTRAINT ck_audit_event_seq CHECK (seq >= 0),
            ADD CONSTRAINT ck_audit_event_leaf_bytes CHECK (octet_length(leaf_bytes) BETWEEN 1 AND 65535),
            ADD CONSTRAINT ck_audit_event_leaf_hash CHECK (octet_length(leaf_hash) = 32 AND leaf_hash = sha256('\x00'::bytea || leaf_bytes));
        ALTER TABLE audit_head ADD CONSTRAINT ck_audit_head_size CHECK (size >= 0);
        ALTER TABLE api_token ADD CONSTRAINT ck_api_token_hash CHECK (octet_length(hash) = 32);
        ALTER TABLE idempotency_record ADD CONSTRAINT ck_idempotency_record_answer CHECK ((status IS NULL) = (headers IS NULL) AND (status IS NULL) = (body IS NULL));
        """;

    public const string DropChecks = """
        ALTER TABLE revision DROP CONSTRAINT ck_revision_state, DROP CONSTRAINT ck_revision_verdict, DROP CONSTRAINT ck_revision_worst,
            DROP CONSTRAINT ck_revision_number, DROP CONSTRAINT ck_revision_document_digest, DROP CONSTRAINT ck_revision_screening_digest;
        ALTER TABLE finding DROP CONSTRAINT ck_finding_hazard, DROP CONSTRAINT ck_finding_severity;
        ALTER TABLE slot DROP CONSTRAINT ck_slot_kind, DROP CONSTRAINT ck_slot_required_role;
        ALTER TABLE decision DROP CONSTRAINT ck_decision_decision, DROP CONSTRAINT ck_decision_reason, DROP CONSTRAINT ck_decision_bound_digest;
        ALTER TABLE membership_role DROP CONSTRAINT ck_membership_role_role;
        ALTER TABLE membership_competence DROP CONSTRAINT ck_membership_competence_hazard;
        ALTER TABLE routing_rule DROP CONSTRAINT ck_routing_rule_hazard;
        ALTER TABLE draft DROP CONSTRAINT ck_draft_version;
        ALTER TABLE procedure DROP CONSTRAINT ck_procedure_latest_revision;
        ALTER TABLE group_policy DROP CONSTRAINT ck_group_policy_review_days;
        ALTER TABLE audit_event DROP CONSTRAINT ck_audit_event_seq, DROP CONSTRAINT ck_audit_event_leaf_bytes, DROP CONSTRAINT ck_audit_event_leaf_hash;
        ALTER TABLE audit_head DROP CONSTRAINT ck_audit_head_size;
        ALTER TABLE api_token DROP CONSTRAINT ck_api_token_hash;
        ALTER TABLE idempotency_record DROP CONSTRAINT ck_idempotency_record_answer;
        """;

    /// <summary>
    /// Triggers of the statement, not of the row: they answer also when no row matches, and TRUNCATE has no rows. They guard against mistakes,
    /// not against the owner, who can drop them: that is what the Merkle tree and copies of its head outside are for.
    /// </summary>
    public const string Triggers = """
        CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            RAISE EXCEPTION '% on % is refused: it is append-only', TG_OP, TG_TABLE_NAME USING ERRCODE = 'restrict_violation';
        END $$;

        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON audit_event FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON decision FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON finding FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON revision FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER immutable_columns BEFORE UPDATE OF procedure_id, number, group_id, author_id, title, submitted_at, document, document_digest, screening,
            screening_digest, verdict, worst, finding_count, engine_version, data_digest, policy_digest
            ON revision FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON slot FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER immutable_columns BEFORE UPDATE OF procedure_id, revision, slot, group_id, kind, assignee_id, hazards, required_competences, required_role, reason
            ON slot FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON audit_head FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER never_deleted BEFORE DELETE OR TRUNCATE ON account FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        """;

    public const string DropTriggers = """
        DROP TRIGGER never_deleted ON account;
        DROP TRIGGER append_only ON audit_head;
        DROP TRIGGER immutable_columns ON slot;
        DROP TRIGGER append_only ON slot;
        DROP TRIGGER immutable_columns ON revision;
        DROP TRIGGER append_only ON revision;
        DROP TRIGGER append_only ON finding;
        DROP TRIGGER append_only ON decision;
        DROP TRIGGER append_only ON audit_event;
        DROP FUNCTION refuse_change();
        """;

    /// <summary>Roles belong to the whole server: another database may have made it at this very moment.</summary>
    public const string Role = $"""
        DO $$ BEGIN
            IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = '{Migrator.ApplicationRole}') THEN
                CREATE ROLE {Migrator.ApplicationRole} NOLOGIN;
            END IF;
        EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
        END $$;
        """;

    /// <summary>Only what the handlers do. A lock of a row (FOR UPDATE, FOR SHARE) needs UPDATE on one column at least.</summary>
    public const string Grants = $"""
        REVOKE CREATE ON SCHEMA public FROM PUBLIC;
        GRANT USAGE ON SCHEMA public TO {Migrator.ApplicationRole};
        GRANT SELECT ON ALL TABLES IN SCHEMA public TO {Migrator.ApplicationRole};
        GRANT INSERT ON account, account_claim, account_login, account_token, api_token, audit_event, audit_head, data_protection_key, decision, draft, finding,
            group_policy, idempotency_record, membership, membership_competence, membership_role, notice, outbox, procedure, procedure_editor,
            research_group, revision, routing_rule, slot TO {Migrator.ApplicationRole};
        GRANT UPDATE ON account, account_claim, account_login, account_token, data_protection_key TO {Migrator.ApplicationRole};
        GRANT UPDATE (revoked_at) ON api_token TO {Migrator.ApplicationRole};
        GRANT UPDATE (size, compact_range) ON audit_head TO {Migrator.ApplicationRole};
        GRANT UPDATE (title, document, version, saved_at, submitted_as) ON draft TO {Migrator.ApplicationRole};
        GRANT UPDATE (countersign_dangers, review_days) ON group_policy TO {Migrator.ApplicationRole};
        GRANT UPDATE (status, headers, body) ON idempotency_record TO {Migrator.ApplicationRole};
        GRANT UPDATE (changed_at) ON membership TO {Migrator.ApplicationRole};
        GRANT UPDATE (read_at) ON notice TO {Migrator.ApplicationRole};
        GRANT UPDATE (attempts, sent_at) ON outbox TO {Migrator.ApplicationRole};
        GRANT UPDATE (title, latest_revision, updated_at) ON procedure TO {Migrator.ApplicationRole};
        GRANT UPDATE (state, version) ON revision TO {Migrator.ApplicationRole};
        GRANT UPDATE (open, since, due) ON slot TO {Migrator.ApplicationRole};
        GRANT DELETE ON account_claim, account_login, account_token, data_protection_key, idempotency_record, membership_competence, membership_role,
            routing_rule TO {Migrator.ApplicationRole};
        """;

    /// <summary>The role itself stays: other databases of the server may use it.</summary>
    public const string RevokeGrants = $"""
        REVOKE ALL ON ALL TABLES IN SCHEMA public FROM {Migrator.ApplicationRole};
        REVOKE USAGE ON SCHEMA public FROM {Migrator.ApplicationRole};
        """;
}
