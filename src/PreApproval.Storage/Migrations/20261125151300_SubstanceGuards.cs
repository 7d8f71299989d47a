using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class SubstanceGuards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(SubstanceGuardsSql.Checks);
            migrationBuilder.Sql(SubstanceGuardsSql.Triggers);
            migrationBuilder.Sql(SubstanceGuardsSql.Grants);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(SubstanceGuardsSql.RevokeGrants);
            migrationBuilder.Sql(SubstanceGuardsSql.DropTriggers);
            migrationBuilder.Sql(SubstanceGuardsSql.DropChecks);
        }
    }
}
