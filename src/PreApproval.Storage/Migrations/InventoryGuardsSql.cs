namespace PreApproval.Storage.Migrations;

/// <summary>
/// Checks, triggers and grants for the groups' inventories: versions are append-only, a head moves one version at a time to one that exists, an
/// agent is at a place of its group, and a place with agents stays.
/// </summary>
internal static class InventoryGuardsSql
{
    public const string Checks = """
        ALTER TABLE inventory_item
            ADD CONSTRAINT ck_inventory_item_kind CHECK (kind IN ('vessel', 'place', 'agent') AND (kind = 'agent') = (place_id IS NOT NULL)),
            ADD CONSTRAINT ck_inventory_item_version CHECK (version >= 1),
            ADD CONSTRAINT ck_inventory_item_name CHECK (btrim(name) <> '' AND name_key <> '');
        ALTER TABLE inventory_version
            ADD CONSTRAINT ck_inventory_version_change CHECK (change IN ('added', 'changed', 'retired') AND (change = 'added') = (version = 1)),
            ADD CONSTRAINT ck_inventory_version_reason CHECK (change <> 'retired' OR btrim(reason) <> ''),
            ADD CONSTRAINT ck_inventory_version_content_digest CHECK (content_digest = 'sha256:' || encode(sha256(content), 'hex'));
        """;

    public const string DropChecks = """
        ALTER TABLE inventory_version DROP CONSTRAINT ck_inventory_version_change, DROP CONSTRAINT ck_inventory_version_reason,
            DROP CONSTRAINT ck_inventory_version_content_digest;
        ALTER TABLE inventory_item DROP CONSTRAINT ck_inventory_item_kind, DROP CONSTRAINT ck_inventory_item_version, DROP CONSTRAINT ck_inventory_item_name;
        """;

    public const string Triggers = """
        CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON inventory_version FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON inventory_item FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
        CREATE TRIGGER immutable_columns BEFORE UPDATE OF id, group_id, kind ON inventory_item FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

        CREATE FUNCTION guard_inventory_item() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NEW.kind = 'agent' AND NEW.retired_at IS NULL AND NOT EXISTS (
                SELECT FROM inventory_item p WHERE p.group_id = NEW.group_id AND p.id = NEW.place_id AND p.kind = 'place' AND p.retired_at IS NULL) THEN
                RAISE EXCEPTION 'an extinguishing agent is at a place in use' USING ERRCODE = 'restrict_violation';
            END IF;
            IF TG_OP = 'INSERT' THEN
                IF NEW.version <> 1 OR NEW.retired_at IS NOT NULL THEN
                    RAISE EXCEPTION 'an entry of the inventory begins in use, with version 1' USING ERRCODE = 'restrict_violation';
                END IF;
                RETURN NEW;
            END IF;
            IF OLD.retired_at IS NOT NULL THEN
                RAISE EXCEPTION 'what was taken out of the inventory is not changed' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NEW.version <> OLD.version + 1 THEN
                RAISE EXCEPTION 'the version of an entry counts up by one' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NEW.kind = 'place' AND NEW.retired_at IS NOT NULL AND EXISTS (
                SELECT FROM inventory_item a WHERE a.group_id = NEW.group_id AND a.place_id = NEW.id AND a.retired_at IS NULL) THEN
                RAISE EXCEPTION 'a place with extinguishing agents stays in the inventory' USING ERRCODE = 'restrict_violation';
            END IF;
            IF NOT EXISTS (SELECT FROM inventory_version v WHERE v.group_id = NEW.group_id AND v.item_id = NEW.id AND v.version = NEW.version
                AND (v.change = 'retired') = (NEW.retired_at IS NOT NULL)) THEN
                RAISE EXCEPTION 'an entry moves to a version that exists' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        CREATE TRIGGER versions BEFORE INSERT OR UPDATE ON inventory_item FOR EACH ROW EXECUTE FUNCTION guard_inventory_item();

        CREATE FUNCTION guard_inventory_version() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NOT EXISTS (SELECT FROM inventory_item i WHERE i.group_id = NEW.group_id AND i.id = NEW.item_id AND i.version >= NEW.version) THEN
                RAISE EXCEPTION 'version % lies beyond its entry', NEW.version USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NULL;
        END $$;
        CREATE CONSTRAINT TRIGGER within_item AFTER INSERT ON inventory_version DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION guard_inventory_version();
        """;

    public const string DropTriggers = """
        DROP TRIGGER within_item ON inventory_version;
        DROP TRIGGER versions ON inventory_item;
        DROP TRIGGER immutable_columns ON inventory_item;
        DROP TRIGGER append_only ON inventory_item;
        DROP TRIGGER append_only ON inventory_version;
        DROP FUNCTION guard_inventory_version();
        DROP FUNCTION guard_inventory_item();
        """;

    public const string Grants = $"""
        GRANT SELECT, INSERT ON inventory_item, inventory_version TO {Migrator.ApplicationRole};
        GRANT UPDATE (name, name_key, place_id, version, retired_at, updated_at) ON inventory_item TO {Migrator.ApplicationRole};
        """;

    public const string RevokeGrants = $"""
        REVOKE ALL ON inventory_item, inventory_version FROM {Migrator.ApplicationRole};
        """;
}
