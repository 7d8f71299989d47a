using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class GroupSubstances : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "group_substance",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name_key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    cas = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_group_substance", x => x.id);
                    table.UniqueConstraint("ak_group_substance_group_id_id", x => new { x.group_id, x.id });
                    table.ForeignKey(
                        name: "fk_group_substance_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "group_substance_version",
                columns: table => new
                {
                    substance_id = table.Column<Guid>(type: "uuid", nullable: false),
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
                    table.PrimaryKey("pk_group_substance_version", x => new { x.substance_id, x.version });
                    table.ForeignKey(
                        name: "fk_group_substance_version_group_substance_group_id_substance_",
                        columns: x => new { x.group_id, x.substance_id },
                        principalTable: "group_substance",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_group_substance_version_membership_group_id_author_id",
                        columns: x => new { x.group_id, x.author_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_group_substance_group_id_cas",
                table: "group_substance",
                columns: new[] { "group_id", "cas" },
                unique: true,
                filter: "retired_at IS NULL AND cas IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_group_substance_group_id_name_key",
                table: "group_substance",
                columns: new[] { "group_id", "name_key" },
                unique: true,
                filter: "retired_at IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_group_substance_version_group_id_author_id",
                table: "group_substance_version",
                columns: new[] { "group_id", "author_id" });

            migrationBuilder.CreateIndex(
                name: "ix_group_substance_version_group_id_substance_id",
                table: "group_substance_version",
                columns: new[] { "group_id", "substance_id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "group_substance_version");

            migrationBuilder.DropTable(
                name: "group_substance");
        }
    }
}
