using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class GroupThresholds : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "policy_version",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    author_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    content = table.Column<byte[]>(type: "bytea", nullable: false),
                    content_digest = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_policy_version", x => new { x.group_id, x.version });
                    table.ForeignKey(
                        name: "fk_policy_version_group_policy_group_id",
                        column: x => x.group_id,
                        principalTable: "group_policy",
                        principalColumn: "group_id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_policy_version_membership_group_id_author_id",
                        columns: x => new { x.group_id, x.author_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_policy_version_group_id_author_id",
                table: "policy_version",
                columns: new[] { "group_id", "author_id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "policy_version");
        }
    }
}
