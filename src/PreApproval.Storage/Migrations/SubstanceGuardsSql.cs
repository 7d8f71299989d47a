namespace PreApproval.Storage.Migrations;

/// <summary>Checks, triggers and grants for the groups' own substances: versions are append-only, and a head moves one version at a time to one that exists.</summary>
internal static class SubstanceGuardsSql
{
    public const string Checks = """
        ALTER TABLE group_substance
            ADD CONSTRAINT ck_group_substance_version CHECK (version >= 1),
            ADD CONSTRAINT ck_group_substance_name CHECK (btrim(name) <> '' AND name_key <> ''),
            ADD CONSTRAINT ck_group_substance_cas CHECK (cas ~ '^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$');
        ALTER TABLE group_substance_version
            ADD CONSTRAINT ck_group_substance_version_change CHECK (change IN ('added', 'changed', 'retired') AND (change = 'added') = (version = 1)),
            ADD CONSTRAINT ck_group_substance_version_reason CHECK (change <> 'retired' OR btrim(reason) <> ''),
            ADD CONSTRAINT ck_group_substance_version_content_digest CHECK (content_digest = 'sha256:' || encode(sha256(content), 'hex'));
        """;

    public const string DropChecks = """
        ALTER TABLE group_substance_version DROP CONSTRAINT ck_group_substance_version_change, DROP CONSTRAINT ck_group_substance_version_reason,
            DROP CONSTRAINT ck_group_substance_version_content_digest;
        ALTER TABLE group_substance DROP CONSTRAINT ck_group_substance_version, DROP CONSTRAINT ck_group_substance_name, DROP CONSTRAINT ck_group_substance_cas;
        """;

    public const string Triggers = """
        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON group_substance_version FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON group_substance FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER immutable_columns BEFORE UPDATE OF id, group_id ON group_substance FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

        CREATE FUNCTION guard_group_substance() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF TG_OP = 'INSERT' THEN
                IF NEW.version <> 1 OR NEW.retired_at IS NOT NULL THEN
                    RAISE EXCEPTION 'a substance begins in use, with version 1' USING ERRCODE = 'restrict_violation';
                END IF;
                RETURN NEW;
            END IF;
            IF OLD.retired_at IS NOT NULL THEN
                RAISE EXCEPTION 'a substance that was taken out of use is not changed' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NEW.version <> OLD.version + 1 THEN
                RAISE EXCEPTION 'the version of a substance counts up by one' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NOT EXISTS (SELECT FROM group_substance_version v WHERE v.group_id = NEW.group_id AND v.substance_id = NEW.id AND v.version = NEW.version
                AND (v.change = 'retired') = (NEW.retired_at IS NOT NULL)) THEN
                RAISE EXCEPTION 'a substance moves to a version that exists' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER versions BEFORE INSERT OR UPDATE ON group_substance FOR EACH ROW EXECUTE FUNCTION guard_group_substance();

        CREATE FUNCTION guard_group_substance_version() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NOT EXISTS (SELECT FROM group_substance s WHERE s.group_id = NEW.group_id AND s.id = NEW.substance_id AND s.version >= NEW.version) THEN
                RAISE EXCEPTION 'version % lies beyond its substance', NEW.version USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NULL;
        END $$;
        CREATE CONSTRAINT TRIGGER within_substance AFTER INSERT ON group_substance_version DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION guard_group_substance_version();
        """;

    public const string DropTriggers = """
        DROP TRIGGER within_substance ON group_substance_version;
        DROP TRIGGER versions ON group_substance;
        DROP TRIGGER immutable_columns ON group_substance;
        DROP TRIGGER append_only ON group_substance;
        DROP TRIGGER append_only ON group_substance_version;
        DROP FUNCTION guard_group_substance_version();
        DROP FUNCTION guard_group_substance();
        """;

    public const string Grants = $"""
        GRANT SELECT, INSERT ON group_substance, group_substance_version TO {Migrator.ApplicationRole};
        GRANT UPDATE (name, name_key, cas, version, retired_at, updated_at) ON group_substance TO {Migrator.ApplicationRole};
        """;

    public const string RevokeGrants = $"""
        REVOKE ALL ON group_substance, group_substance_version FROM {Migrator.ApplicationRole};
        """;
}
