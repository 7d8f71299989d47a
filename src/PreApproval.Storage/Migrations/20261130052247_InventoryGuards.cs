using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class InventoryGuards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(InventoryGuardsSql.Checks);
            migrationBuilder.Sql(InventoryGuardsSql.Triggers);
            migrationBuilder.Sql(InventoryGuardsSql.Grants);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(InventoryGuardsSql.RevokeGrants);
            migrationBuilder.Sql(InventoryGuardsSql.DropTriggers);
            migrationBuilder.Sql(InventoryGuardsSql.DropChecks);
        }
    }
}
