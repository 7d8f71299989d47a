using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Inventory : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "inventory_item",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    name_key = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    place_id = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_inventory_item", x => x.id);
                    table.UniqueConstraint("ak_inventory_item_group_id_id", x => new { x.group_id, x.id });
                    table.ForeignKey(
                        name: "fk_inventory_item_inventory_item_group_id_place_id",
                        columns: x => new { x.group_id, x.place_id },
                        principalTable: "inventory_item",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_inventory_item_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "inventory_version",
                columns: table => new
                {
                    item_id = table.Column<Guid>(type: "uuid", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    change = table.Column<string>(type: "text", nullable: false),
                    author_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: true),
                    content = table.Column<byte[]>(type: "bytea", nullable: false),
                    content_digest = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_inventory_version", x => new { x.item_id, x.version });
                    table.ForeignKey(
                        name: "fk_inventory_version_inventory_item_group_id_item_id",
                        columns: x => new { x.group_id, x.item_id },
                        principalTable: "inventory_item",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_inventory_version_membership_group_id_author_id",
                        columns: x => new { x.group_id, x.author_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_inventory_item_group_id_kind_name_key",
                table: "inventory_item",
                columns: new[] { "group_id", "kind", "name_key" },
                unique: true,
                filter: "retired_at IS NULL AND kind <> 'agent'");

            migrationBuilder.CreateIndex(
                name: "ix_inventory_item_group_id_place_id",
                table: "inventory_item",
                columns: new[] { "group_id", "place_id" });

            migrationBuilder.CreateIndex(
                name: "ix_inventory_version_group_id_author_id",
                table: "inventory_version",
                columns: new[] { "group_id", "author_id" });

            migrationBuilder.CreateIndex(
                name: "ix_inventory_version_group_id_item_id",
                table: "inventory_version",
                columns: new[] { "group_id", "item_id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "inventory_version");

            migrationBuilder.DropTable(
                name: "inventory_item");
        }
    }
}
