namespace PreApproval.Storage.Migrations;

/// <summary>Checks, triggers and grants for the groups' thresholds: versions are append-only and count up by one from 2; version 1 is the program's default.</summary>
internal static class PolicyGuardsSql
{
    public const string Checks = """
        ALTER TABLE policy_version
            ADD CONSTRAINT ck_policy_version_version CHECK (version >= 2),
            ADD CONSTRAINT ck_policy_version_reason CHECK (btrim(reason) <> ''),
            ADD CONSTRAINT ck_policy_version_content_digest CHECK (content_digest = 'sha256:' || encode(sha256(content), 'hex'));
        """;

    public const string DropChecks = """
        ALTER TABLE policy_version DROP CONSTRAINT ck_policy_version_version, DROP CONSTRAINT ck_policy_version_reason,
            DROP CONSTRAINT ck_policy_version_content_digest;
        """;

    public const string Triggers = """
        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON policy_version FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

        CREATE FUNCTION guard_policy_version() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NEW.version <> 1 + coalesce((SELECT max(v.version) FROM policy_version v WHERE v.group_id = NEW.group_id), 1) THEN
                RAISE EXCEPTION 'the version of a policy counts up by one' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER versions BEFORE INSERT ON policy_version FOR EACH ROW EXECUTE FUNCTION guard_policy_version();
        """;

    public const string DropTriggers = """
        DROP TRIGGER versions ON policy_version;
        DROP TRIGGER append_only ON policy_version;
        DROP FUNCTION guard_policy_version();
        """;

    public const string Grants = $"""
        GRANT SELECT, INSERT ON policy_version TO {Migrator.ApplicationRole};
        """;

    public const string RevokeGrants = $"""
        REVOKE ALL ON policy_version FROM {Migrator.ApplicationRole};
        """;
}
